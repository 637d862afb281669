/** A curve in two coordinates, known exactly wherever it is asked for; null where it does not exist. */
export type Curve = (share: number) => { readonly u: number; readonly v: number } | null;

/** Where traced samples go: entries `first` to `last` of two arrays, at equal steps of the curve from its start to its end. */
export interface TraceTarget {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly first: number;
  readonly last: number;
}

export interface TraceOptions {
  /** Largest share of the curve that one cubic may span. */
  readonly span: number;
  /** How far a cubic may stray from the curve, in its own coordinates; looser asks for fewer exact points. */
  readonly tolerance: { readonly u: number; readonly v: number };
  /** What stands for a place that does not exist. */
  readonly nowhere: number;
}

/** Below this many samples exact points cost no more than a cubic, which needs six. */
const FEW = 6;

/**
 * Fills samples of a smooth curve from cubics through four exact points each, halving a span wherever the cubic strays.
 *
 * It strays most midway between its nodes; it is checked in the middle of the first and the last third. First and last
 * samples of every span are exact.
 */
export function traceCubic(curve: Curve, target: TraceTarget, options: TraceOptions): void {
  const { first, last } = target;
  const pieces = Math.max(1, Math.ceil(1 / Math.max(options.span, Number.EPSILON)));
  const perPiece = Math.max(1, Math.floor((last - first) / pieces));
  for (let start = first; start < last; start += perPiece) {
    traceSpan(curve, target, options, start, Math.min(last, start + perPiece));
  }
  if (first === last) traceExactly(curve, target, options.nowhere, first, last);
}

function traceSpan(curve: Curve, target: TraceTarget, options: TraceOptions, start: number, end: number): void {
  if (end - start < FEW) {
    traceExactly(curve, target, options.nowhere, start, end);
    return;
  }
  const cubic = cubicOver(curve, target, start, end);
  if (cubic && staysNear(cubic, curve, options)) {
    fillCubic(cubic, target, start, end);
    return;
  }
  const middle = (start + end) >> 1;
  traceSpan(curve, target, options, start, middle);
  traceSpan(curve, target, options, middle, end);
}

function traceExactly(curve: Curve, target: TraceTarget, nowhere: number, start: number, end: number): void {
  for (let i = start; i <= end; i++) {
    const point = curve(shareOf(target, i));
    target.u[i] = point ? point.u : nowhere;
    target.v[i] = point ? point.v : nowhere;
  }
}

const shareOf = ({ first, last }: TraceTarget, i: number): number =>
  last === first ? 0 : (i - first) / (last - first);

/** p(t) = c₀ + c₁t + c₂t² + c₃t³ in either coordinate, t from 0 to 1 over the span. */
interface Cubic {
  readonly from: number;
  readonly to: number;
  readonly u: Coefficients;
  readonly v: Coefficients;
}
type Coefficients = readonly [number, number, number, number];

function cubicOver(curve: Curve, target: TraceTarget, start: number, end: number): Cubic | null {
  const from = shareOf(target, start);
  const to = shareOf(target, end);
  const step = (to - from) / 3;
  const p0 = curve(from);
  const p1 = curve(from + step);
  const p2 = curve(to - step);
  const p3 = curve(to);
  if (!p0 || !p1 || !p2 || !p3) return null;
  return { from, to, u: through(p0.u, p1.u, p2.u, p3.u), v: through(p0.v, p1.v, p2.v, p3.v) };
}

/** The cubic through values at t = 0, 1/3, 2/3, 1. Source: Lagrange's formula, closed form. */
function through(f0: number, f1: number, f2: number, f3: number): Coefficients {
  const d1 = f1 - f0;
  const d2 = f2 - f0;
  const d3 = f3 - f0;
  return [f0, (18 * d1 - 9 * d2 + 2 * d3) / 2, (-45 * d1 + 36 * d2 - 9 * d3) / 2, (27 * d1 - 27 * d2 + 9 * d3) / 2];
}

const at = ([c0, c1, c2, c3]: Coefficients, t: number): number => c0 + t * (c1 + t * (c2 + t * c3));

const CHECKED = [1 / 6, 5 / 6];

function staysNear(cubic: Cubic, curve: Curve, { tolerance }: TraceOptions): boolean {
  return CHECKED.every((t) => {
    const exact = curve(cubic.from + t * (cubic.to - cubic.from));
    return (
      exact !== null &&
      Math.abs(at(cubic.u, t) - exact.u) <= tolerance.u &&
      Math.abs(at(cubic.v, t) - exact.v) <= tolerance.v
    );
  });
}

function fillCubic(cubic: Cubic, { u, v }: TraceTarget, start: number, end: number): void {
  const [u0, u1, u2, u3] = cubic.u;
  const [v0, v1, v2, v3] = cubic.v;
  const step = 1 / (end - start);
  for (let i = start; i <= end; i++) {
    const t = (i - start) * step;
    u[i] = u0 + t * (u1 + t * (u2 + t * u3));
    v[i] = v0 + t * (v1 + t * (v2 + t * v3));
  }
}
