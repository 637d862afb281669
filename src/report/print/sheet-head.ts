import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { verdictSymbol } from '../figure/role-symbol.ts';
import { answerSentence, answerVerdict, arrivesSentence, firstSentence } from '../findings/answer-words.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
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
export function verdictLine({ plan, units }: PrintSource, evaluation: Evaluation | null): FigureNode {
  if (evaluation === null) return line('No elevation file was open, so nothing is judged yet.');
  const { answer } = evaluation;
  const verdict = answerVerdict(answer);
  const sentence = answerSentence(answer, plan);
  const because = answer.runs.because ?? answer.arrives.because;
  const words = because && findingWords(because, { units, nameOf: (id) => nameOf(plan, id) });
  const beneath = [
    words === null ? '' : [words.sentence, words.remedy].filter((s) => s !== '').join(' '),
    arrivesSentence(answer, plan),
    firstSentence(answer, plan),
  ];
  return figureNode(
    'div',
    { class: 'answer-lines' },
    figureNode(
      'p',
      { class: 'verdict-line' },
      verdict === null ? null : verdictSymbol(verdict),
      verdict === null ? sentence : ` · ${sentence}`,
    ),
    ...beneath.filter((s) => s !== '').map((s) => figureNode('p', {}, s)),
  );
}

const line = (words: string) => figureNode('p', { class: 'verdict-line' }, words);

/** Which program made the sheet, and when. */
export function sheetFoot({ program, date }: PrintSource): FigureNode {
  return figureNode('footer', { class: 'sheet-foot' }, `${program.name} ${program.version} · ${date}`);
}
