import { type PumpSizeRow, type PumpSizes, twoDeliverMore } from '../../evaluation/evaluate/pump-catalogue.ts';
import type { SourceResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import type { MeasuredRun, PumpChoice } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { spelled } from './spelling.ts';

type StopReason = NonNullable<PumpSizeRow['stops']>;
type Answer = PumpSizes['answer'];

const STOPS: Readonly<Record<StopReason, string>> = {
  'waste-valve-sticks-open': 'the water never lifts its waste valve',
  'waste-valve-stays-shut': 'nothing lets its waste valve fall open again',
  'delivery-head-too-high': 'its pressure wave does not reach the delivery head',
  'check-valve-too-slow': 'more runs back through its check valve than goes out',
  'waste-valve-too-slow': 'its waste valve takes too long to shut',
  'no-pump-needed': 'the outlet is not above the source',
};

/** What every figure of the table rests on. */
export const MODEL_SENTENCE =
  'What each takes comes from a model of the beat; what it delivers is what the plan would show with it, at the efficiency of published rams. A test run of the pump, entered below, corrects it.';

/** A size as it is sold: by inches, and where metric units are read by the nominal diameter too. */
const sizeName = ({ inches, nominal }: PumpSizeRow['size'], units: UnitSystem): string =>
  units === 'us' ? `${inches} in` : `DN ${nominal} (${inches} in)`;

/** Which size this source should have. */
export function pumpSizeAnswer(answer: Answer, units: UnitSystem, place = ''): string {
  const where = place === '' ? '' : ` to ${place}`;
  const litres = (perSecond: number) => writeQuantity(perSecond * SECONDS_PER_DAY, 'daily-volume', units);
  switch (answer.kind) {
    case 'one':
      return `A ${sizeName(answer.size, units)} ram suits: it would deliver ${litres(answer.delivery)}${where}.`;
    case 'two-side-by-side':
      return `Two ${sizeName(answer.size, units)} rams side by side, each with its own drive pipe: they would deliver ${litres(answer.delivery)} together${where}.`;
    case 'none':
      return answer.because === 'too-little-water'
        ? 'No usual size suits: each takes more water than is there.'
        : `No usual size runs here: ${STOPS[answer.because]}.`;
    case 'no-pump-needed':
      return 'No pump is needed: the outlet is not above the water at the source. Lay a gravity line instead.';
  }
}

const SECONDS_PER_DAY = 86_400;

/** One row of the table, in words. */
export interface PumpSizeWords {
  readonly name: string;
  readonly intake: string | null;
  readonly delivery: string | null;
  readonly beat: string | null;
  readonly length: string;
  /** Whether the length of drive pipe keeps the rules of practice. */
  readonly lengthRule: string;
  readonly verdict: Verdict;
  readonly sentence: string;
  /** What two of it side by side deliver a day where that is more than one does; else null. */
  readonly two: string | null;
}

export function pumpSizeWords(row: PumpSizeRow, units: UnitSystem): PumpSizeWords {
  const { intake, run, length, lengths } = row;
  const rule = lengths.both ?? lengths.byBore;
  return {
    name: sizeName(row.size, units),
    intake: intake && writeRange(intake.least, intake.most, 'flow', units),
    delivery: run && writeQuantity(run.delivery * SECONDS_PER_DAY, 'daily-volume', units),
    beat: run && `${Math.round(run.beatsPerMinute)}\u202f/min`,
    length: writeQuantity(length, 'length', units),
    lengthRule: row.lengthKeepsRules
      ? 'within the rules'
      : `rules: ${writeRange(rule.least, rule.most, 'length', units)}`,
    ...VERDICTS[row.verdict](row),
    two:
      row.halfRun && twoDeliverMore(row)
        ? writeQuantity(2 * row.halfRun.delivery * SECONDS_PER_DAY, 'daily-volume', units)
        : null,
  };
}

type Judged = Pick<PumpSizeWords, 'verdict' | 'sentence'>;

const VERDICTS: Readonly<Record<PumpSizeRow['verdict'], (row: PumpSizeRow) => Judged>> = {
  suits: () => ({ verdict: 'holds', sentence: 'good match' }),
  'leaves-water': () => ({ verdict: 'holds', sentence: 'small for this spring' }),
  'needs-more-water': () => ({ verdict: 'fails', sentence: 'too big for this spring' }),
  'does-not-run': ({ stops }) => ({
    verdict: 'fails',
    sentence: stops === null ? 'does not run' : `does not run: ${STOPS[stops]}`,
  }),
};

/** Where the efficiency of a pump comes from, and what that is worth. */
export function efficiencySentence(pump: PumpChoice, fittedRuns: number): string {
  if (fittedRuns > 0) return 'It follows what this pump was measured to take and deliver.';
  if (pump.kind === 'ram') {
    return 'It comes from a model of the beat, times what four published rams reached of it (half to nine tenths).';
  }
  return pump.efficiency === null
    ? 'It is a planning band that falls as the lift grows against the fall (five of seven published rams lie in it) and not measured on this pump.'
    : 'It is what its sheet states and not measured on this pump.';
}

/** An efficiency in whole percent with its spread. */
export function efficiencyWords({ low, likely, high }: Estimate, units: UnitSystem): string {
  const percent = (value: number) => Math.round(value * 100);
  const range = percent(low) === percent(high) ? '' : ` (${percent(low)} to ${percent(high)} %)`;
  return spelled(`${percent(likely)} %${range}`, units);
}

/** What lines from the source to troughs take beside the pump: in the mean of a day, and while their valves are open. */
export function drawnWords({ drawn }: SourceResult, units: UnitSystem): string | null {
  if (drawn === null) return null;
  const [mean, open] = [drawn.mean, drawn.open].map((flow) => writeQuantity(flow, 'flow', units));
  return `${mean} in the mean of a day, ${open} while their valves are open`;
}

/** A test run of the pump in one line. */
export function runWords(run: MeasuredRun, units: UnitSystem): string {
  const [took, gave] = [run.driveFlow, run.delivery].map((flow) => writeQuantity(flow, 'flow', units));
  const [fall, head] = [run.fall, run.deliveryHead].map((height) => writeQuantity(height, 'height', units));
  const spread = run.plusMinus === undefined ? '' : `, ±${writeQuantity(run.plusMinus, 'share', units)}`;
  return `took ${took} at ${fall}, delivered ${gave} at ${head}${spread}`;
}
