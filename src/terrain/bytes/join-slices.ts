import type { ByteSlice } from './byte-source.ts';

/** A run of bytes that several slices are cut from, by their indices. */
export interface JoinedSlices extends ByteSlice {
  readonly slices: readonly number[];
}

/** Gap that is cheaper to read along than to ask twice for. Common practice, no source. */
const GAP = 32 * 1024;
const LONGEST = 4 * 1024 * 1024;

/** Joins slices that lie next to one another, or nearly so, into runs; empty slices fall out. */
export function joinSlices(slices: readonly ByteSlice[]): readonly JoinedSlices[] {
  const order = slices.map((_, index) => index).filter((index) => (slices[index]?.length ?? 0) > 0);
  order.sort((p, q) => (slices[p]?.offset ?? 0) - (slices[q]?.offset ?? 0));
  const runs: { offset: number; length: number; slices: number[] }[] = [];
  for (const index of order) {
    const { offset, length } = slices[index] as ByteSlice;
    const last = runs.at(-1);
    const end = Math.max(offset + length, last === undefined ? 0 : last.offset + last.length);
    const near = last !== undefined && offset <= last.offset + last.length + GAP && end - last.offset <= LONGEST;
    if (!near) {
      runs.push({ offset, length, slices: [index] });
      continue;
    }
    last.length = end - last.offset;
    last.slices.push(index);
  }
  return runs;
}
