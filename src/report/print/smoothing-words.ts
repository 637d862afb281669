import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from '../measure-words.ts';
import type { PrintSource } from './print-source.ts';

/**
 * What averaging over cells does to fall, lifts and points, in words with its direction. Amounts that round to nothing in the
 * shown digits are left out; nothing here is in the numbers.
 */
export function smoothingSentences({ plan, units, site }: PrintSource): readonly string[] {
  if (site === null) return [];
  const height = (value: number) => writeQuantity(Math.abs(value), 'height', units);
  const shows = (value: number) => height(value) !== height(0);
  const { pump, tanks, points } = site.evaluation;
  const biased = [
    ...(pump === null ? [] : [{ what: 'the fall', bias: pump.fallBias }]),
    ...tanks.map(({ id, liftBias }) => ({ what: `the lift to ${nameOf(plan, id)}`, bias: liftBias })),
  ].filter(({ bias }) => shows(bias));
  const sentences = biased.map(({ what, bias }) => {
    const side = bias > 0 ? 'larger' : 'smaller';
    return `The file’s cells make ${what} look ${height(bias)} ${side} than its own curves suggest; it may really be that much ${bias > 0 ? 'smaller' : 'larger'}, or more so.`;
  });
  const curved = points.filter(({ smoothing }) => shows(smoothing));
  const heights = curved.map(({ id, smoothing }) => {
    return `${nameOf(plan, id)} ${height(smoothing)} too ${smoothing > 0 ? 'high' : 'low'}`;
  });
  return [
    ...sentences,
    ...(heights.length > 0 ? [`Read from the file at least so far off: ${heights.join(', ')}.`] : []),
    ...(sentences.length + heights.length > 0
      ? ['None of this is taken off the numbers; it widens their spread.']
      : []),
  ];
}
