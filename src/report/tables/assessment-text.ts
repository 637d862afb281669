import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { visibleText } from '../../units/visible-text.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { answerSentence, arrivesSentence, firstSentence } from '../findings/answer-words.ts';
import { findingWords } from '../findings/finding-words.ts';
import { measureReason } from '../findings/measure-reason.ts';
import { estimateWords, measureWords, nameOf } from '../words/measure-words.ts';
import { drawnWords } from '../words/pump-size-words.ts';
import { VERDICT_WORDS } from '../words/role-words.ts';
import { inSentence, TERMS } from '../words/terms.ts';

const VERDICT_WIDTH = Math.max(...Object.values(VERDICT_WORDS).map(({ length }) => length));

type Row = readonly [name: string, value: string];

/** An evaluation as text for reading, with the shown units. Findings that hold are counted, not told. */
export function assessmentText(plan: Plan, evaluation: Evaluation, units: UnitSystem): string {
  const sections = [
    `${plan.name}\n${answerText({ ...plan, units }, evaluation, units)}`,
    section('Pump', pumpRows(evaluation, units)),
    section('Lines', lineRows(plan, evaluation, units)),
    ...evaluation.tanks.map((tank) => section(nameOf(plan, tank.id), tankRows(tank, units))),
    findingsText(plan, evaluation, units),
    measureText(plan, evaluation, units),
  ];
  return visibleText(sections.filter((s) => s !== '').join('\n'));
}

/** The answer first: the sentence, the deciding reason with its remedy, what arrives, what to measure first. */
function answerText(plan: Plan, { answer }: Evaluation, units: UnitSystem): string {
  const because = answer.runs.because ?? answer.arrives.because;
  const words = because && findingWords(because, { units, nameOf: (id) => nameOf(plan, id) });
  const lines = [
    answerSentence(answer, plan),
    words === null ? '' : [words.sentence, words.remedy].filter((s) => s !== '').join(' '),
    arrivesSentence(answer, plan),
    firstSentence(answer, plan),
  ];
  return lines
    .filter((line) => line !== '')
    .map((line) => `${line}\n`)
    .join('');
}

function section(title: string, rows: readonly Row[]): string {
  if (rows.length === 0) return '';
  const width = Math.max(...rows.map(([name]) => name.length));
  return `${title}\n${rows.map(([name, value]) => `  ${name.padEnd(width)}  ${value}\n`).join('')}`;
}

function told(estimate: Estimate | null, kind: QuantityKind, units: UnitSystem): string {
  if (estimate === null) return 'not known yet';
  const { likely, range } = estimateWords(estimate, kind, units);
  return range === null ? likely : `${likely} (${range})`;
}

const driveWords = (pumps: number) => inSentence(TERMS.driveFlow) + (pumps === 1 ? '' : ` of ${pumps} pumps`);

function pumpRows({ pump, source }: Evaluation, units: UnitSystem): Row[] {
  if (pump === null) return [];
  const drawn = drawnWords(source, units);
  return [
    [inSentence(TERMS.fallAtRest), told(pump.fallAtRest, 'height', units)],
    [inSentence(TERMS.fall), told(pump.fall, 'height', units)],
    [inSentence(TERMS.available), told(source.available, 'flow', units)],
    ...(drawn === null ? [] : [['troughs on the source use', drawn] as const]),
    [driveWords(pump.count), told(pump.driveFlow, 'flow', units)],
    [inSentence(TERMS.supplyLimit), told(pump.supplyLimit, 'flow', units)],
  ];
}

function lineRows(plan: Plan, { lines }: Evaluation, units: UnitSystem): Row[] {
  return lines.map((line) => {
    const gap = line.void > 0 ? `, ${writeQuantity(line.void, 'length', units)} without heights` : '';
    return [nameOf(plan, line.id), `${writeQuantity(line.slope, 'length', units)} along the ground${gap}`];
  });
}

function tankRows(tank: Evaluation['tanks'][number], units: UnitSystem): Row[] {
  const rows: Row[] = [[inSentence(TERMS.lift), told(tank.lift, 'height', units)]];
  if (tank.line === null) return [...rows, ['delivery line', 'not drawn yet']];
  rows.push([inSentence(TERMS.governingLift), told(tank.line.governingLift, 'height', units)]);
  rows.push([inSentence(TERMS.arrives), told(tank.line.deliveryPerDay, 'daily-volume', units)]);
  if (tank.demandPerDay !== null)
    rows.push([inSentence(TERMS.needed), writeQuantity(tank.demandPerDay, 'daily-volume', units)]);
  if (tank.verdict !== null) rows.push([inSentence(TERMS.verdict), VERDICT_WORDS[tank.verdict]]);
  return rows;
}

function findingsText(plan: Plan, { findings }: Evaluation, units: UnitSystem): string {
  const open = findings.filter((f) => f.verdict !== 'holds');
  const lines = open.map((finding) => {
    const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
    return `  ${VERDICT_WORDS[finding.verdict].padEnd(VERDICT_WIDTH)} ${words.sentence} ${words.remedy}\n`;
  });
  const held = findings.length - open.length;
  return `Findings\n${lines.join('')}  ${held} of ${findings.length} checks are OK\n`;
}

function measureText(plan: Plan, evaluation: Evaluation, units: UnitSystem): string {
  if (evaluation.measureFirst.length === 0) return '';
  const lines = evaluation.measureFirst.map((item, i) => {
    const words = measureWords(item, plan, units);
    const aim = words.aim === null ? '' : ` ${words.aim}`;
    return `  ${i + 1}. ${words.title}${aim}. ${measureReason(item, evaluation, plan, units)}\n`;
  });
  return `Measure first\n${lines.join('')}`;
}
