import { readQuantity } from '../../units/read-quantity.ts';
import { quantitySentence } from './quantity-words.ts';

export type TimesReading =
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
