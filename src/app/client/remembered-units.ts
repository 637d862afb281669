import { signal } from '@preact/signals';
import type { HeightUnit } from '../../terrain/georeference/vertical-unit.ts';
import type { FileAnswers } from '../../worker/messages.ts';
import { type ElevationInput, referenceOfInput } from './elevation-input.ts';

const KEY = 'rillwright-units-of-heights';
/** The oldest answers fall out beyond so many. */
const MOST = 100;
const HEAD_BYTES = 4096;

type Units = Readonly<Record<string, HeightUnit>>;

/** What the user said of the files that are open: their units by the name of the file. */
export const saidUnits = signal<Units>({});

/** What tells a file from another of its name: its size and its first bytes; an address is itself. */
async function keyOf(input: ElevationInput): Promise<string> {
  if ('address' in input) return input.address;
  const head = new Uint8Array(await input.slice(0, HEAD_BYTES).arrayBuffer());
  return `${input.name}|${input.size}|${checksum(head).toString(16)}`;
}

/** FNV-1a, 32 bits: G. Fowler, L. C. Noll, K.-P. Vo, draft-eastlake-fnv. */
function checksum(bytes: Uint8Array): number {
  let hash = 0x811c9dc5;
  for (const byte of bytes) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return hash;
}

function kept(): Record<string, HeightUnit> {
  try {
    const text = localStorage.getItem(KEY);
    const value: unknown = text === null ? {} : JSON.parse(text);
    return typeof value === 'object' && value !== null ? { ...(value as Units) } : {};
  } catch {
    return {};
  }
}

function keep(units: Units): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(Object.entries(units).slice(-MOST))));
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

/** The answers with those units that were said of the same files before. */
export async function withRememberedUnits(
  files: readonly ElevationInput[],
  answers: FileAnswers,
): Promise<FileAnswers> {
  const units = kept();
  const known = await Promise.all(
    files.map(async (file) => {
      const verticalUnit = units[await keyOf(file)];
      const own = answers[file.name];
      return verticalUnit === undefined ? [file.name, own] : [file.name, { verticalUnit, ...own }];
    }),
  );
  return Object.fromEntries(known.filter(([, answer]) => answer !== undefined));
}

/** Keeps what was said of files that opened with it. */
export async function rememberUnits(files: readonly ElevationInput[], answers: FileAnswers): Promise<void> {
  const units = kept();
  const said: Record<string, HeightUnit> = {};
  for (const file of files) {
    const key = await keyOf(file);
    const unit = answers[file.name]?.verticalUnit ?? units[key];
    if (unit === undefined) continue;
    delete units[key];
    units[key] = unit;
    said[referenceOfInput(file)] = unit;
  }
  keep(units);
  saidUnits.value = said;
}

/** Forgets what was said of files, so that they are asked about again. */
export async function forgetUnits(files: readonly ElevationInput[]): Promise<void> {
  const units = kept();
  for (const file of files) delete units[await keyOf(file)];
  keep(units);
  saidUnits.value = {};
}
