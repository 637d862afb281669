import type { SampleKind } from './raster-layout.ts';

/** Stored numbers that mean "no height here". */
export interface NoData {
  /** The number as a sample of the file can hold it; null where none is stated. */
  readonly value: number | null;
  readonly isVoid: (raw: number) => boolean;
}

/** Beyond this no height is meant: written as nodata by many programs, whatever the tag says. */
const ABSURD = 1e30;

/** The number that a nodata text states, rounded to what the samples can hold; null for none, undefined if unreadable. */
export function parseNoData(
  text: string | undefined,
  form: { kind: SampleKind; bits: number },
): number | null | undefined {
  const trimmed = text?.trim() ?? '';
  if (trimmed === '' || /^[-+]?(1\.#)?(nan|qnan|ind)/i.test(trimmed)) return null;
  const value = Number(trimmed);
  if (Number.isNaN(value)) return undefined;
  return form.kind === 'float' && form.bits === 32 ? Math.fround(value) : value;
}

export function noDataTest(value: number | null, kind: SampleKind): NoData {
  // Whole numbers come as NaN where a block's own mask leaves a cell out.
  if (kind !== 'float') return { value, isVoid: (raw) => raw === value || Number.isNaN(raw) };
  // A NaN fails every comparison, so the test asks for what a height must be.
  return { value, isVoid: (raw) => !(raw > -ABSURD && raw < ABSURD) || raw === value };
}
