import { CAUSES, type FaultCode } from '../model/causes.ts';
import { COLUMNS, type Draws, putReadings, ramsOf } from '../model/draws.ts';
import { readingsOf } from '../model/field-ram.ts';
import { type Readings, stateOf } from '../model/readings.ts';
import { seeded } from '../model/seeded.ts';
import { density, predicted } from './density.ts';
import { type Asked, measuresOf, priorOf, type Ranked, stateChance } from './ranking.ts';

/** Two causes at once, and how much better they explain what was read than the best single one. */
export interface Pair {
  readonly codes: readonly [FaultCode, FaultCode];
  /** Likelihood over the best single cause's, both averaged over their made-up rams. */
  readonly better: number;
}

/** Causes that are tried in pairs, and made-up rams a pair. */
const TRIED = 7;
const RAMS = 90;
const PAIR_SEED = 11;

/** The pair that explains the readings best; null where a single cause does it as well. */
export function bestPair(draws: Draws, ranked: readonly Ranked[], asked: Asked, single: number): Pair | null {
  const codes = ranked
    .filter(({ code }) => code !== 'healthy' && code !== 'something-else')
    .slice(0, TRIED)
    .map(({ code }) => code as FaultCode);
  const measures = measuresOf(draws, asked);
  const state = stateOf(asked.now);
  const random = seeded(PAIR_SEED);
  const rams = ramsOf(draws.field, RAMS, random);
  const sound = rams.map((ram) => rowOf(readingsOf(ram)));
  let best: Pair | null = null;
  for (let a = 0; a < codes.length; a += 1) {
    for (let b = a + 1; b < codes.length; b += 1) {
      const pair = [codes[a] as FaultCode, codes[b] as FaultCode] as const;
      let sum = 0;
      rams.forEach((ram, i) => {
        let field = ram;
        for (const code of pair) {
          const cause = CAUSES.find((one) => one.code === code);
          if (cause === undefined) continue;
          const { least, most } = cause.severity;
          field = cause.apply(field, least * (most / least) ** random.uniform(), random.uniform());
        }
        const read = readingsOf(field);
        const row = rowOf(read);
        let likelihood = state === null ? 1 : stateChance(state, read.state ?? 'runs');
        for (const measure of measures) {
          const expected = predicted(
            measure,
            row[measure.column] as number,
            (sound[i] as Float64Array)[measure.column] as number,
          );
          likelihood *= density(measure, asked.now[measure.channel] as number, expected);
        }
        sum += likelihood;
      });
      const better = sum / RAMS / single;
      if (best === null || better > best.better) best = { codes: pair, better };
    }
  }
  return best;
}

function rowOf(readings: Readings): Float64Array {
  const row = new Float64Array(COLUMNS);
  putReadings(row, 0, readings);
  return row;
}

/** Mean likelihood of the best single cause, something else left out. */
export function singleLikelihood(ranked: readonly Ranked[], asked: Asked): number {
  let best = 0;
  for (const { code, likelihood } of ranked) {
    if (code !== 'something-else' && likelihood > best && priorOf(code, asked.priors) > 0) best = likelihood;
  }
  return Math.max(best, Number.MIN_VALUE);
}
