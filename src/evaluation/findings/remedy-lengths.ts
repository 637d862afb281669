import type { Metres, Ratio } from '../../units/quantity.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { compare, quotient, type Spread } from '../statistics/compare.ts';
import type { Judged } from './finding.ts';

/** Halvings of the search for a length: to a millimetre for any drive pipe. */
const HALVINGS = 24;

/** What a rule of length counts by: the bore or the running fall. */
function measureOf({ site, known, layout }: SolvedSystem, code: string): Spread | null {
  if (code.startsWith('drive-length-fall')) return known.spread(layout.shared('fall'));
  const { drive } = site.arrangement;
  const pipe = drive ? site.pipes.get(drive.pipe) : undefined;
  return pipe === undefined ? null : boreSpread(pipe);
}

/** The length of drive pipe nearest to the drawn one with which its rule holds, m; null where none is found. */
export function driveLengthToHold(system: SolvedSystem, { finding }: Judged, confidence: Ratio): Metres | null {
  const { limit, side } = finding;
  const by = measureOf(system, finding.code);
  if (limit === null || by === null) return null;
  const holds = (length: Metres) =>
    compare(quotient(laidLength(length), by), { limit, side, confidence }).verdict === 'holds';
  const edge = limit * by.estimate.likely;
  let [good, bad] = [side === 'at-least' ? edge * 2 : edge / 2, edge];
  if (!holds(good)) return null;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
