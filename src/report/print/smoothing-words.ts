import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
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
  const sentences = ([1, -1] as const).flatMap((sign) => {
    const some = biased.filter(({ bias }) => bias * sign > 0).map(({ what, bias }) => `${what} by ${height(bias)}`);
    if (some.length === 0) return [];
    const [side, other] = sign > 0 ? ['larger', 'smaller'] : ['smaller', 'larger'];
    return [
      `The file’s cells make these look ${side} than the ground’s own curves suggest: ${some.join(', ')}. Really they may be ${other}, by as much or more.`,
    ];
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
