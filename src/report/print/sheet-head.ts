import type { Answer, Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { addressName } from '../../terrain/bytes/address-name.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { verdictShape } from '../figure/role-symbol.ts';
import { answerSentence, answerVerdict, arrivesSentence } from '../findings/answer-words.ts';
import { findingWords } from '../findings/finding-words.ts';
import { measureWords, nameOf } from '../words/measure-words.ts';
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

/** The verdict of the whole plan by its shape and in a sentence; where it is not yes why, and what to do first. */
export function verdictLine({ plan, units }: PrintSource, evaluation: Evaluation | null): FigureNode {
  if (evaluation === null) {
    const files = plan.terrain?.files.map((file) => addressName(file) ?? file).join(', ') ?? '';
    return figureNode(
      'div',
      { class: 'answer-lines' },
      line('No elevation file was open, so nothing is judged yet.'),
      told('Do this first:', `open ${files === '' ? 'the elevation file of the place' : files} in the planner.`),
    );
  }
  const { answer } = evaluation;
  const verdict = answerVerdict(answer);
  const sentence = answerSentence(answer, plan);
  const because = answer.runs.because ?? answer.arrives.because;
  const words = because && findingWords(because, { units, nameOf: (id) => nameOf(plan, id) });
  const arrives = arrivesSentence(answer, plan);
  return figureNode(
    'div',
    { class: 'answer-lines' },
    figureNode(
      'p',
      { class: 'verdict-line' },
      verdict === null ? null : verdictShape(verdict),
      verdict === null ? sentence : ` ${sentence}`,
    ),
    words === null || words.sentence === '' ? null : told('Why:', words.sentence),
    ...firstThing(evaluation, plan, words?.remedy ?? '').map((first) => told('Do this first:', first)),
    // Where the amount is the reason it has been told.
    arrives === '' || (because !== null && because === answer.arrives.because) ? null : figureNode('p', {}, arrives),
  );
}

/** What comes before anything else: what is missing is drawn, what fails is mended, and else the doubt is measured away. */
function firstThing({ answer }: Evaluation, plan: Plan, remedy: string): readonly string[] {
  if (answer.state === 'incomplete') return ['draw what is missing in the planner, and print this again.'];
  const measure = firstReading(answer, plan);
  const wrong = answer.runs.because ?? answer.arrives.because;
  if (wrong !== null && remedy !== '' && (wrong.verdict === 'fails' || measure === '')) return [remedy];
  return measure === '' ? [] : [measure];
}

function firstReading({ first }: Answer, plan: Plan): string {
  if (first === null) return '';
  const { title, aim } = measureWords(first, plan, plan.units);
  return `${title}${aim === null ? '' : `, ${aim}`}.`;
}

const told = (what: string, words: string) => figureNode('p', {}, figureNode('strong', {}, what), ` ${words}`);

const line = (words: string) => figureNode('p', { class: 'verdict-line' }, words);

/** Which program made the sheet, and when. */
export function sheetFoot({ program, date }: PrintSource): FigureNode {
  return figureNode('footer', { class: 'sheet-foot' }, `${program.name} ${program.version} · ${date}`);
}
