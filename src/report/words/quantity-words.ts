import { expectedOf, type UnitSystem } from '../../units/kind.ts';
import { type QuantityRefusal, readQuantity } from '../../units/read-quantity.ts';

/** Why a typed quantity could not be taken, and what would be, in the units that are shown. */
export function quantitySentence(refusal: QuantityRefusal, units: UnitSystem): string {
  const type = `Type ${expectedOf(refusal.kind, units)}.`;
  switch (refusal.code) {
    case 'empty':
      return `Nothing is typed here. ${type}`;
    case 'not-a-number':
      return `“${refusal.found}” is not a number. ${type}`;
    case 'ambiguous-number':
      return `Which do you mean by “${refusal.found}”?`;
    case 'unit-missing':
      return `“${refusal.found}” has no unit. ${type}`;
    case 'unit-unknown':
      return `“${refusal.found}” has a unit that is not known here. ${type}`;
    case 'unit-unfit':
      return `“${refusal.found}” has a unit of something else. ${type}`;
    case 'parts-unfit':
      return `The parts of “${refusal.found}” do not go together. ${type}`;
  }
}

type TimesReading =
  | { readonly ok: true; readonly value: readonly number[] }
  | { readonly ok: false; readonly sentence: string };

/** Times as they were noted down, s; no watch in a hand is read to more than a hundredth. */
export function writeTimes(times: readonly number[]): string {
  return times.map((time) => String(Number(time.toFixed(2)))).join('  ');
}

/** Reads several times in one line, apart by blanks, semicolons or commas with a blank after; a bare number is seconds. */
export function readTimes(text: string): TimesReading {
  const parts = text.split(/[;\s]+|,\s+/).filter((part) => part !== '');
  const times: number[] = [];
  for (const part of parts) {
    const reading = readQuantity(part, 'duration', { bareUnit: 'second' });
    if (!reading.ok) return { ok: false, sentence: quantitySentence(reading, 'metric') };
    times.push(reading.value);
  }
  return times.length > 0 ? { ok: true, value: times } : { ok: false, sentence: 'Type at least one time, such as 31.' };
}
