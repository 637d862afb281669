import type { Finding } from '../../evaluation/result/evaluation.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { verdictSymbol } from '../figure/role-symbol.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
import type { PrintSource } from './print-source.ts';
import { list, paragraph, part, subpart } from './sheet-node.ts';

/** Findings with their remedies: what fails, then what must be measured, then in short what holds. */
export function findingsPart(source: PrintSource): FigureNode | null {
  const findings = source.site?.evaluation.findings ?? [];
  if (findings.length === 0) return null;
  const of = (verdict: Finding['verdict']) => findings.filter((finding) => finding.verdict === verdict);
  return part(
    'Findings',
    subpart(['Fails as drawn'], ...of('fails').map((finding) => openFinding(finding, source))),
    subpart(['Check on site'], ...of('measure').map((finding) => openFinding(finding, source))),
    subpart(
      ['OK'],
      paragraph(`${of('holds').length} of ${findings.length} checks are OK.`),
      heldList(of('holds'), source),
    ),
  );
}

function openFinding(finding: Finding, { plan, units }: PrintSource): FigureNode {
  const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
  return figureNode(
    'div',
    { class: 'finding', 'data-code': finding.code, 'data-about': finding.about },
    figureNode(
      'p',
      { class: 'finding-title' },
      verdictSymbol(finding.verdict),
      ` · ${words.title}: ${nameOf(plan, finding.about)}`,
    ),
    paragraph(words.sentence),
    figureNode('p', { class: 'remedy' }, words.remedy),
    paragraph(`Chance that it is kept: ${chance(finding.chance)}. Source: ${finding.source}.`, 'small'),
  );
}

/** A chance in percent; never told surer than to one in a hundred. */
function chance(share: number): string {
  const percent = Math.round(share * 100);
  return percent < 1 ? 'under 1 %' : percent > 99 ? 'over 99 %' : `${percent} %`;
}

/** One line a kind of check, with everything it was made on. */
function heldList(held: readonly Finding[], { plan, units }: PrintSource): FigureNode | null {
  const byTitle = new Map<string, string[]>();
  for (const finding of held) {
    const name = nameOf(plan, finding.about);
    const { title } = findingWords(finding, { units, nameOf: () => name });
    byTitle.set(title, [...(byTitle.get(title) ?? []), name]);
  }
  const items = [...byTitle].map(([title, names]) => [
    figureNode('strong', {}, title),
    `: ${[...new Set(names)].join(', ')}`,
  ]);
  return list(items, 'held');
}
