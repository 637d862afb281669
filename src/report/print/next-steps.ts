import type { FigureChild } from '../figure/figure-node.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
import { measureSentences } from './measure-part.ts';
import type { PrintSource } from './print-source.ts';
import { strong } from './sheet-node.ts';
import { shownTanks } from './shown-tanks.ts';

/** So many of each kind fit on page one; the rest is in the details. */
const MOST = 3;

/** What to do next: what fails as drawn, then what to measure. */
export function nextSteps(source: PrintSource): readonly (readonly FigureChild[])[] {
  const { plan, units, site } = source;
  if (site === null) return [['Open an elevation file of the place in the planner.']];
  const others = idsOfOthers(source);
  const failing = site.evaluation.findings.filter((f) => f.verdict === 'fails' && !others.has(f.about));
  const remedies = failing.slice(0, MOST).map((finding): FigureChild[] => {
    const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
    return [strong(`${nameOf(plan, finding.about)}: `), words.remedy];
  });
  const measure = measureSentences(source);
  const titles = measure.slice(0, MOST).map(([title]): FigureChild[] => [`${title}.`]);
  const left = failing.length - remedies.length + measure.length - titles.length;
  return [...remedies, ...titles, ...(left > 0 ? [[`${left} more in the details.`]] : [])];
}

/** Tanks that page one does not speak of, with the lines to and from them; the details tell of those. */
function idsOfOthers(source: PrintSource): ReadonlySet<string> {
  const shown = shownTanks(source).map(({ id }) => id);
  const tanks = source.plan.points.filter((p) => p.role === 'tank' && !shown.includes(p.id)).map(({ id }) => id);
  const lines = source.plan.routes.filter(({ from, to }) => tanks.includes(from) || tanks.includes(to));
  return new Set([...tanks, ...lines.map(({ id }) => id)]);
}
