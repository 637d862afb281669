import type { SampleKind } from './raster-layout.ts';

/** Beyond this no height is meant: written as nodata by many programs, whatever the tag says. */
const ABSURD = 1e30;

/**
 * Whether a stored number means "no height": the stated one (NaN where none is stated), one beyond all sense, infinite, or
 * NaN. A NaN fails every comparison, so the test asks for what a height must be.
 */
export function meansNothing(raw: number, stated: number): boolean {
  return raw === stated || !(raw > -ABSURD && raw < ABSURD);
}

/** Whether a stored number is one of several further ones that mean "no height". */
export function isAlsoVoid(raw: number, further: readonly number[]): boolean {
  for (const one of further) if (raw === one) return true;
  return false;
}

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
