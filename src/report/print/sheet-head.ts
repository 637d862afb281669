import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { verdictSymbol } from '../figure/role-symbol.ts';
import { planSentence } from '../words/verdict-words.ts';
import type { PrintSource } from './print-source.ts';

/** Name of the plan, kind of sheet and day. */
export function sheetHead({ plan, date }: PrintSource, kind: string): FigureNode {
  return figureNode(
    'header',
    { class: 'sheet-head' },
    figureNode('p', { class: 'kind' }, `${kind} · ${date}`),
    figureNode('h1', {}, plan.name === '' ? 'Plan without a name' : plan.name),
  );
}

/** The verdict of the whole plan by its shape and in a sentence. */
export function verdictLine(evaluation: Evaluation | null): FigureNode {
  const verdict = evaluation?.verdict ?? null;
  const words = evaluation === null ? 'No elevation file was open, so nothing is judged yet.' : planSentence(verdict);
  return figureNode(
    'p',
    { class: 'verdict-line' },
    verdict === null ? null : verdictSymbol(verdict),
    verdict === null ? words : ` · ${words}`,
  );
}

/** Which program made the sheet, and when. */
export function sheetFoot({ program, date }: PrintSource): FigureNode {
  return figureNode('footer', { class: 'sheet-foot' }, `${program.name} ${program.version} · ${date}`);
}
