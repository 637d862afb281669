import type { Measurement, PointId } from '../../plan/model/plan.ts';
import { heightCovariance, type PlaceOnSlope } from '../../terrain/accuracy/height-covariance.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres, SquareMetres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { lowerTriangle } from '../statistics/lower-triangle.ts';
import { Z975 } from '../statistics/normal.ts';

/** Doubt of the zero of levels that name no survey against the DEM's: models of the same datum differ so much. Common practice, no source. */
const DATUM_DEVIATION: Metres = 0.4;

/** Doubt of something of which nothing is known beforehand: ground without a DEM, the zero of a survey of its own. */
const UNKNOWN_DEVIATION: Metres = 1000;

/** No level is read finer than this. */
const FINEST_DEVIATION: Metres = 0.001;

/** A place whose ground height the evaluation uses: its likely height, and what is known of it before any level was taken. */
export interface HeightNode {
  readonly ground: Metres;
  /** Where its DEM height comes from; null without one. */
  readonly dem: PlaceOnSlope | null;
  /** The point of the plan that it is; absent for a place along a line. */
  readonly point?: PointId;
}

/** A level reading against what the DEM and all other readings say of it. */
export interface ReadingCheck {
  readonly index: number;
  readonly expected: Metres;
  /** Standard deviation of the reading minus what was expected. */
  readonly deviation: Metres;
}

/** Something that a level reading bears on: the ground at a point, or the zero of a survey. */
interface Unknown {
  readonly key: string;
  readonly prior: Metres;
  readonly dem: PlaceOnSlope | null;
  /** Standard deviation of its own where it has no DEM height. */
  readonly own: Metres;
}

interface Row {
  readonly index: number;
  readonly plus: number;
  readonly other: number;
  readonly sign: 1 | -1;
  readonly value: Metres;
  readonly variance: SquareMetres;
}

const pointKey = (id: PointId): string => `point ${id}`;
const surveyKey = (name: string): string => `survey ${name}`;

/** The two things a reading ties together, and how the second counts: z = plus + sign · other. */
function tieOf(taken: Measurement): { plus: string; other: string; sign: 1 | -1; value: Metres } {
  return taken.kind === 'height'
    ? { plus: pointKey(taken.point), other: surveyKey(taken.survey ?? ''), sign: 1, value: taken.height }
    : { plus: pointKey(taken.to), other: pointKey(taken.from), sign: -1, value: taken.rise };
}

/** Standard deviations beyond which a level reading is thought to be wrong rather than unlucky. Common practice, no source. */
export const CONTRADICTS = 3;

/**
 * The net of a plan's readings, and what they are held against. Levels that count from another zero than the DEM's, which shows
 * when they contradict it, tell nothing of its heights: their zero is then unknown, and only what they say of one another counts.
 * Where their owner looked at one and keeps it, they count as they are.
 */
export function heightNets(
  raw: ReadonlyMap<PointId, { readonly ground: Metres; readonly dem: PlaceOnSlope }>,
  measurements: readonly Measurement[],
  accuracy: HeightAccuracy,
): { readonly net: HeightNet; readonly strict: HeightNet } {
  const strict = new HeightNet(raw, measurements, accuracy);
  const kept = measurements.some((m) => m.kind === 'height' && m.survey === undefined && m.standing === 'kept');
  if (kept || strict.zeroOff() <= CONTRADICTS) return { net: strict, strict };
  return { net: new HeightNet(raw, measurements, accuracy, UNKNOWN_DEVIATION), strict };
}

/** Readings that count. */
export const counted = (taken: Measurement): boolean => taken.standing !== 'set-aside';

/**
 * The level readings of a plan as one net, conditioned as a normal distribution is:
 *
 * x ~ N(m, K), z = H x + e, S = H K Hᵀ + R; m' = m + K Hᵀ S⁻¹ (z − H m), K' = K − K Hᵀ S⁻¹ H K.
 *
 * x heights of the points and zeros of the surveys, m what the DEM says, K its covariance, m²; z readings, R their variances.
 * A reading against all the rest: (S⁻¹ y)ᵢ / (S⁻¹)ᵢᵢ with variance 1 / (S⁻¹)ᵢᵢ, y = z − H m.
 * Source: closed form (conditioning of a normal distribution, least squares with a prior).
 */
export class HeightNet {
  private readonly unknowns: readonly Unknown[];
  private readonly rows: readonly Row[];
  private readonly prior: Float64Array;
  /** L of S = L Lᵀ. */
  private readonly root: Float64Array;
  /** L⁻¹ H K, a row a reading, a column an unknown. */
  private readonly seen: readonly Float64Array[];
  private readonly posterior: Float64Array;
  private readonly accuracy: HeightAccuracy;

  constructor(
    raw: ReadonlyMap<PointId, { readonly ground: Metres; readonly dem: PlaceOnSlope }>,
    measurements: readonly Measurement[],
    accuracy: HeightAccuracy,
    /** Doubt of the zero that levels without a survey count from. */
    zero: Metres = DATUM_DEVIATION,
  ) {
    this.accuracy = accuracy;
    const found = startingHeights(raw, measurements, zero);
    this.unknowns = found;
    const place = new Map(found.map(({ key }, i) => [key, i]));
    this.rows = measurements.flatMap((taken, index) => {
      const { plus, other, sign, value } = tieOf(taken);
      const [a, b] = [place.get(plus), place.get(other)];
      if (!counted(taken) || a === undefined || b === undefined || a === b) return [];
      const variance = Math.max(FINEST_DEVIATION, taken.plusMinus / Z975) ** 2;
      return [{ index, plus: a, other: b, sign, value, variance }];
    });
    this.prior = priorCovariance(found, accuracy);
    const n = found.length;
    const across = this.rows.map((row) => combined(row, (j) => this.prior.subarray(j * n, (j + 1) * n)));
    this.root = rootOf(this.rows, across);
    this.seen = this.forward(across);
    const gap = this.forward(this.rows.map((row) => Float64Array.of(row.value - this.at(row, (j) => this.start(j)))));
    this.posterior = Float64Array.from(found, (u, j) => {
      let shift = 0;
      gap.forEach((g, r) => {
        shift += valueAt(g, 0) * valueAt(this.seen[r] ?? g, j);
      });
      return u.prior + shift;
    });
  }

  /** Height of a point with every reading weighed; null where nothing leads to it. */
  height(id: PointId): Metres | null {
    const i = this.unknowns.findIndex(({ key }) => key === pointKey(id));
    return i < 0 ? null : valueAt(this.posterior, i);
  }

  /** What is left at a point of an error that the DEM's heights have. */
  left(id: PointId, errorAt: (dem: PlaceOnSlope) => Metres): Metres {
    const i = this.unknowns.findIndex(({ key }) => key === pointKey(id));
    if (i < 0) return 0;
    const error = (j: number): Metres => {
      const dem = this.unknowns[j]?.dem;
      return dem ? errorAt(dem) : 0;
    };
    const seen = this.forward(this.rows.map((row) => Float64Array.of(this.at(row, error))));
    return seen.reduce((sum, s, r) => sum - valueAt(s, 0) * valueAt(this.seen[r] ?? s, i), error(i));
  }

  /** Covariance of the errors of some nodes once every reading is weighed, m², row by row. */
  covariance(nodes: readonly HeightNode[]): Float64Array {
    const own = this.unknowns.length;
    const all: Unknown[] = [...this.unknowns, ...nodes.map((node, i) => nodeAsUnknown(node, i, this.unknowns))];
    const n = all.length;
    const joint = priorCovariance(all, this.accuracy);
    const across = this.forward(this.rows.map((row) => combined(row, (j) => joint.subarray(j * n + own, (j + 1) * n))));
    const count = nodes.length;
    const left = new Float64Array(count * count);
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < count; j++) {
        let value = valueAt(joint, (own + i) * n + own + j);
        for (const row of across) value -= valueAt(row, i) * valueAt(row, j);
        left[i * count + j] = value;
      }
    }
    return left;
  }

  /**
   * How far the levels that name no survey say the DEM's zero is off, in standard deviations of what was expected:
   * m' / √(k − k'), k the zero's variance before and k' after.
   */
  zeroOff(): number {
    const i = this.unknowns.findIndex(({ key }) => key === surveyKey(''));
    const learned = this.seen.reduce((sum, row) => sum + valueAt(row, i) ** 2, 0);
    return learned > 0 ? Math.abs(valueAt(this.posterior, i)) / Math.sqrt(learned) : 0;
  }

  /** Every reading against what the DEM and the other readings say. */
  checks(): readonly ReadingCheck[] {
    const n = this.rows.length;
    const gap = this.backward(
      this.forward(this.rows.map((row) => Float64Array.of(row.value - this.at(row, (j) => this.start(j))))),
    );
    const unit = this.backward(
      this.forward(Array.from({ length: n }, (_, i) => Float64Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)))),
    );
    return this.rows.map((row, i) => {
      const precision = valueAt(unit[i] ?? new Float64Array(n), i);
      const apart = valueAt(gap[i] ?? new Float64Array(1), 0) / precision;
      return { index: row.index, expected: row.value - apart, deviation: 1 / Math.sqrt(precision) };
    });
  }

  private start(j: number): Metres {
    return this.unknowns[j]?.prior ?? 0;
  }

  private at({ plus, other, sign }: Row, of: (j: number) => number): number {
    return of(plus) + sign * of(other);
  }

  /** L⁻¹ B, B row by row. */
  private forward(rows: readonly Float64Array[]): Float64Array[] {
    const n = rows.length;
    const solved: Float64Array[] = [];
    rows.forEach((row, i) => {
      const value = row.slice();
      solved.forEach((earlier, k) => {
        const factor = valueAt(this.root, i * n + k);
        for (let c = 0; c < value.length; c++) value[c] = valueAt(value, c) - factor * valueAt(earlier, c);
      });
      const own = valueAt(this.root, i * n + i);
      solved.push(value.map((v) => v / own));
    });
    return solved;
  }

  /** L⁻ᵀ B, B row by row. */
  private backward(rows: readonly Float64Array[]): Float64Array[] {
    const n = rows.length;
    const solved = rows.map((row) => row.slice());
    for (let i = n - 1; i >= 0; i--) {
      const value = solved[i];
      if (value === undefined) continue;
      for (let k = i + 1; k < n; k++) {
        const factor = valueAt(this.root, k * n + i);
        const later = solved[k] ?? value;
        for (let c = 0; c < value.length; c++) value[c] = valueAt(value, c) - factor * valueAt(later, c);
      }
      const own = valueAt(this.root, i * n + i);
      for (let c = 0; c < value.length; c++) value[c] = valueAt(value, c) / own;
    }
    return solved;
  }
}

/** What a row says of something given for every unknown. */
function combined({ plus, other, sign }: Row, of: (j: number) => Float64Array): Float64Array {
  const b = of(other);
  return of(plus).map((value, c) => value + sign * valueAt(b, c));
}

/** Root of S = H K Hᵀ + R. */
function rootOf(rows: readonly Row[], across: readonly Float64Array[]): Float64Array {
  const n = rows.length;
  const matrix = new Float64Array(n * n);
  rows.forEach(({ plus, other, sign, variance }, i) => {
    across.forEach((seen, j) => {
      matrix[i * n + j] = valueAt(seen, plus) + sign * valueAt(seen, other) + (i === j ? variance : 0);
    });
  });
  return lowerTriangle(matrix, n);
}

/** A node as one more unknown: a point without a DEM height is the very one that the net knows. */
function nodeAsUnknown({ ground, dem, point }: HeightNode, index: number, known: readonly Unknown[]): Unknown {
  const own = known.find(({ key }) => point !== undefined && key === pointKey(point));
  return own && dem === null ? own : { key: `node ${index}`, prior: ground, dem, own: 0 };
}

/** The DEM's covariance where there are DEM heights, and what each unknown without one is known to by itself. */
function priorCovariance(unknowns: readonly Unknown[], accuracy: HeightAccuracy): Float64Array {
  const n = unknowns.length;
  const all = new Float64Array(n * n);
  const onDem = unknowns.flatMap(({ dem }, i) => (dem ? [{ i, ...dem }] : []));
  const dem = heightCovariance(accuracy, onDem);
  onDem.forEach((a, r) => {
    onDem.forEach((b, c) => {
      all[a.i * n + b.i] = valueAt(dem, r * onDem.length + c);
    });
  });
  unknowns.forEach((a, i) => {
    unknowns.forEach((b, j) => {
      if (a.dem === null && b.dem === null && a.key === b.key) all[i * n + j] = a.own ** 2;
    });
  });
  return all;
}

/**
 * Every point that the DEM or a chain of readings leads to, and every survey that one of them is tied to, at the heights that
 * come first. Where something has no height of its own, the first reading gives one, and its prior is wide enough not to count.
 */
function startingHeights(
  raw: ReadonlyMap<PointId, { readonly ground: Metres; readonly dem: PlaceOnSlope }>,
  measurements: readonly Measurement[],
  zero: Metres,
): readonly Unknown[] {
  const ties = measurements.filter(counted).map(tieOf);
  const found = new Map<string, Unknown>();
  for (const [id, { ground, dem }] of raw) found.set(pointKey(id), { key: pointKey(id), prior: ground, dem, own: 0 });
  const datum = surveyKey('');
  found.set(datum, { key: datum, prior: 0, dem: null, own: zero });
  const add = (key: string, prior: Metres) => found.set(key, { key, prior, dem: null, own: UNKNOWN_DEVIATION });
  let before = -1;
  while (found.size > before) {
    before = found.size;
    for (const { plus, other, sign, value } of ties) {
      const [a, b] = [found.get(plus), found.get(other)];
      if (a && !b) add(other, sign * (value - a.prior));
      else if (b && !a) add(plus, value - sign * b.prior);
    }
  }
  return [...found.values()];
}
