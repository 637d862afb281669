import type { GroundLine, VoidSpan } from '../../src/terrain/grid/ground.ts';

/** A straight synthetic ground line going east: height as a function of distance, null where there is none. */
export function groundMade(length: number, step: number, height: (at: number) => number | null): GroundLine {
  const count = Math.round(length / step) + 1;
  const at = Float64Array.from({ length: count }, (_, index) => index * step);
  const heights = Array.from(at, height);
  const known = Uint8Array.from(heights, (value) => (value === null ? 0 : 1));
  return {
    at,
    lon: Float64Array.from(at, (value) => -30 + value / 78_000),
    lat: Float64Array.from(at, () => 40),
    ground: Float64Array.from(heights, (value) => value ?? 0),
    known,
    vertices: Uint32Array.of(0, count - 1),
    voids: voidsOf(known),
    horizontal: length,
    slope: length,
    doubt: { slope: new Float32Array(count), smoothing: new Float32Array(count) },
  };
}

function voidsOf(known: Uint8Array): VoidSpan[] {
  const spans: VoidSpan[] = [];
  known.forEach((value, index) => {
    if (value === 1) return;
    const last = spans.at(-1);
    if (last !== undefined && last.last === index - 1) spans[spans.length - 1] = { first: last.first, last: index };
    else spans.push({ first: index, last: index });
  });
  return spans;
}
