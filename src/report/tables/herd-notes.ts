import { fallsWithHeat, herdPeak, herdRow, warmerRows, warmestOf } from '../../handbook/livestock-needs.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { animalLabel } from '../words/animal-words.ts';

/** What must be known of the printed needs of a plan's animals: where they end, and where they are odd. */
export function herdNotes({ herd, year }: Plan, units: UnitSystem): readonly string[] {
  const hottest = Math.max(...year.map(({ airTemperature }) => airTemperature ?? Number.NEGATIVE_INFINITY));
  const air = (value: number) => writeQuantity(value, 'temperature', units);
  const day = (value: number) => writeQuantity(value, 'daily-volume', units);
  return herd.flatMap((group) => {
    const row = group.kind === 'row' ? herdRow(group.row) : null;
    if (row === null) return [];
    const warmest = warmestOf(row);
    const odd = fallsWithHeat(row);
    const notes: string[] = [];
    if (warmest !== null && hottest > warmest) {
      const [other] = warmerRows(row);
      const reaches = other === undefined ? null : warmestOf(other);
      const offered =
        other === undefined || reaches === null
          ? 'No printed row of such animals goes further.'
          : `“${animalLabel(other, units)}” (${other.source}) is printed up to ${air(reaches)}, with ${day(herdPeak(other).high)} a head.`;
      notes.push(
        `${animalLabel(row, units)}: the printed need ends at ${air(warmest)}, and warmer months count with that. ${offered}`,
      );
    }
    if (odd !== null) {
      const [from, to] = [odd.from.airTemperature ?? 0, odd.to.airTemperature ?? 0];
      notes.push(
        `${animalLabel(row, units)}: the printed need falls from ${day(odd.from.high)} at ${air(from)} to ${day(odd.to.high)} at ${air(to)}, which is odd. Count on the higher one.`,
      );
    }
    return notes;
  });
}
