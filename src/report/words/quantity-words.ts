import { type QuantityRefusal, readQuantity } from '../../units/read-quantity.ts';

/** Why a typed quantity could not be taken, and what would be. */
export function quantitySentence(refusal: QuantityRefusal): string {
  switch (refusal.code) {
    case 'empty':
      return `Nothing is typed here. Type ${refusal.expected}.`;
    case 'not-a-number':
      return `“${refusal.found}” is no number. Type ${refusal.expected}.`;
    case 'ambiguous-number':
      return `“${refusal.found}” can be read as ${refusal.expected}. Type it without the comma.`;
    case 'unit-missing':
      return `“${refusal.found}” has no unit. Type ${refusal.expected}.`;
    case 'unit-unknown':
      return `“${refusal.found}” has a unit that is not known here. Type ${refusal.expected}.`;
    case 'unit-unfit':
      return `“${refusal.found}” has a unit of another kind. Type ${refusal.expected}.`;
    case 'parts-unfit':
      return `The parts of “${refusal.found}” do not belong together. Type ${refusal.expected}.`;
  }
}

type TimesReading =
  | { readonly ok: true; readonly value: readonly number[] }
  | { readonly ok: false; readonly sentence: string };

/** Times as they were noted down, s. */
export function writeTimes(times: readonly number[]): string {
  return times.join('  ');
}

/** Reads several times in one line, apart by blanks or semicolons; a bare number is seconds. */
export function readTimes(text: string): TimesReading {
  const parts = text.split(/[;\s]+/).filter((part) => part !== '');
  const times: number[] = [];
  for (const part of parts) {
    const reading = readQuantity(part, 'duration', 'second');
    if (!reading.ok) return { ok: false, sentence: quantitySentence(reading) };
    times.push(reading.value);
  }
  return times.length > 0 ? { ok: true, value: times } : { ok: false, sentence: 'Type at least one time, such as 31.' };
}
