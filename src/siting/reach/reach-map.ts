import { reachShare } from '../../evaluation/model/run-delivery.ts';
import { normalQuantile, Z90 } from '../../evaluation/statistics/normal.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { NO_WAY } from '../fields/governing-level.ts';
import { cellSides, type OpenGround } from '../fields/open-ground.ts';
import type { Ways } from '../fields/ways-from.ts';
import type { DeliveryTable } from './delivery-table.ts';
import { CovarianceByDistance, ownVariance } from './height-doubt.ts';

/** How a cell is reached: the grades of a way, and why there is none. */
export const WAY_KIND = {
  /** No way leads there, or the pump does not lift so high. */
  outOfReach: 0,
  /** The line rises all the way and drains itself. */
  rises: 1,
  /** It has sags, but nothing above its outlet. */
  sags: 2,
  /** It passes a summit above its outlet: that costs lift and wants a vent. */
  summit: 3,
  /** The outlet lies so low that nothing pushes the waste valve open again. */
  tooLow: 4,
} as const;

/** What would arrive at a tank on every cell. Flows are in m³/s; 0 where nothing does. */
export interface ReachMap {
  readonly columns: number;
  readonly rows: number;
  readonly likely: Float32Array;
  /** 10th and 90th percentile. */
  readonly low: Float32Array;
  readonly high: Float32Array;
  /** Governing lift above the waste valve, m. */
  readonly lift: Float32Array;
  /** Length of the line along the ground, m. */
  readonly length: Float32Array;
  readonly kind: Uint8Array;
  /** Which of the ways that were looked at is the better one. */
  readonly way: Uint8Array;
}

export interface ReachWish {
  readonly ground: OpenGround;
  readonly ways: readonly Ways[];
  readonly table: DeliveryTable;
  readonly pump: { readonly cell: number; readonly valve: Metres };
  readonly source: { readonly cell: number };
  /** Where the line discharges above the ground. */
  readonly inletHeight: Metres;
  readonly accuracy: HeightAccuracy;
}

export function emptyReachMap({ columns, rows }: { readonly columns: number; readonly rows: number }): ReachMap {
  const n = columns * rows;
  const floats = () => new Float32Array(n);
  return {
    columns,
    rows,
    likely: floats(),
    low: floats(),
    high: floats(),
    lift: floats(),
    length: floats(),
    kind: new Uint8Array(n),
    way: new Uint8Array(n),
  };
}

/**
 * What would arrive at a tank on every cell, from the ways there and the table of the planner's own solver, with its doubt.
 *
 * Of the ways to a cell the one that brings more is taken. Doubt in closed form, to first order in the heights:
 * σ²(ln q) = [σ²(ln E) + Σ cᵢcⱼKᵢⱼ + (f σ_k)²] / (1 + m f)²; E the pump's work without its heights; K the covariance of the heights
 * of source, pump and tank, c = (1/H, 1/h − 1/H, −1/h), H fall, h delivery head with friction, f friction's share of it, m the
 * exponent of its law, σ_k the doubt of the line's loss. A fall that is small against its doubt counts by the logarithm of its
 * own 10th and 90th percentile, and where the pressure wave reaches only a little above the head, h counts as steeply as the share
 * that is left. Where the pump runs with a chance only, what arrives is nothing with the rest. Source: derived.
 */
export function fillReachMap(map: ReachMap, wish: ReachWish): void {
  const { ground, ways, table, pump, source, inletHeight } = wish;
  const { columns, rows, heights, open } = ground;
  const { width, height } = cellSides(ground);
  const read = new TableReader(table);
  const doubt = new CellDoubt(wish, Math.hypot(columns * width, rows * height));
  const [pumpRow, sourceRow] = [Math.floor(pump.cell / columns), Math.floor(source.cell / columns)];
  const [pumpColumn, sourceColumn] = [pump.cell - pumpRow * columns, source.cell - sourceRow * columns];
  const between = Math.sqrt(2 * table.fall * Math.min(table.reach, USUAL_REACH));
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      if (open[cell] !== 1) continue;
      const z = heights[cell] as number;
      const outlet = z + inletHeight - pump.valve;
      let best = Number.NEGATIVE_INFINITY;
      for (let k = 0; k < ways.length; k++) {
        const way = ways[k] as Ways;
        const length = way.length[cell] as number;
        if (length === NO_WAY) continue;
        // The two ways are the same over much of the ground.
        if (k > 0 && length === (ways[0] as Ways).length[cell] && way.level[cell] === (ways[0] as Ways).level[cell])
          continue;
        const top = (way.level[cell] as number) - pump.valve;
        const overSummit = top > outlet;
        let flow = read.at(outlet, length);
        if (overSummit) {
          const past = read.at(top, way.summitAt[cell] as number);
          if (past < flow) flow = past;
        }
        if (flow <= best) continue;
        best = flow;
        map.lift[cell] = overSummit ? top : outlet;
        map.length[cell] = length;
        map.way[cell] = k;
        map.kind[cell] = overSummit ? WAY_KIND.summit : way.sags[cell] === 1 ? WAY_KIND.sags : WAY_KIND.rises;
      }
      if (best === Number.NEGATIVE_INFINITY) continue;
      const lift = map.lift[cell] as number;
      const length = map.length[cell] as number;
      read.at(lift, length);
      read.rest();
      const works = pumpAt(table, read, lift);
      const chance = read.chance(works.head);
      if (chance < HALF || works.share <= 0) {
        map.kind[cell] = works.head < between ? WAY_KIND.tooLow : WAY_KIND.outOfReach;
        // With less than a chance of ten not even the 90th percentile is more than nothing.
        if (works.share <= 0 || chance <= LEAST_CHANCE) continue;
      }
      const flow = Math.exp(best) * works.share;
      const fromPump = Math.sqrt(((column - pumpColumn) * width) ** 2 + ((row - pumpRow) * height) ** 2);
      const fromSource = Math.sqrt(((column - sourceColumn) * width) ** 2 + ((row - sourceRow) * height) ** 2);
      doubt.at(cell, works, chance < 1 ? works.waveSlope : works.waveBelow, read, fromPump, fromSource);
      map.low[cell] = quantileOf(flow, doubt, chance, 0.1);
      map.likely[cell] = quantileOf(flow, doubt, chance, HALF);
      map.high[cell] = quantileOf(flow, doubt, chance, 0.9);
    }
  }
}

const HALF = 0.5;
const LEAST_CHANCE = 0.1;
/** Where no pressure wave is known, places are too low or too high about this head; m. Common practice, no source. */
const USUAL_REACH: Metres = 100;
/** Friction is no more than this share of a head. */
const MOST_FRICTION = 0.95;

/** How a pump works against a lift. */
interface PumpAt {
  readonly head: Metres;
  /** What the reach of the pressure wave leaves of the delivery. */
  readonly share: number;
  /** Δ ln q over −Δ ln h. */
  readonly steepness: number;
  /** What the doubt of the wave's reach does, as deviations of the logarithm below and above. */
  readonly waveBelow: number;
  readonly waveAbove: number;
  /** The same by its slope at the likely reach: what is left of it where states in which the pump stops are counted by their chance. */
  readonly waveSlope: number;
}

/** The delivery head with friction, which less water loses less of, and what the wave's reach leaves. */
function pumpAt({ fall, reach, reachDoubt }: DeliveryTable, read: TableReader, lift: Metres): PumpAt {
  const friction = (lift * Math.min(MOST_FRICTION, read.friction)) / (1 - Math.min(MOST_FRICTION, read.friction));
  const first = reachShare(reach, fall, lift + friction);
  const over = Z90 * reachDoubt * (reach - fall);
  if (first === 1 && reachShare(reach - over, fall, lift + friction) === 1) return surely(lift + friction);
  const head = lift + friction * first ** read.exponent;
  const share = reachShare(reach, fall, head);
  const steps = (reach - fall) / Math.max(1e-9, head - fall);
  // s = 4 (μ − 1)/μ²: d ln s / d ln μ = μ/(μ − 1) − 2.
  const ofReach = steps > 1 && steps < 2 ? steps / (steps - 1) - 2 : 0;
  const off = (by: number): number =>
    Math.abs(Math.log(Math.max(LEAST_SHARE, reachShare(reach + by, fall, head)) / Math.max(LEAST_SHARE, share))) / Z90;
  return {
    head,
    share,
    steepness: 1 + (ofReach * head) / Math.max(1e-9, head - fall),
    waveBelow: off(-over),
    waveAbove: off(over),
    waveSlope: ofReach * reachDoubt,
  };
}

const surely = (head: Metres): PumpAt => ({ head, share: 1, steepness: 1, waveBelow: 0, waveAbove: 0, waveSlope: 0 });

/** A quantile of what arrives where the pump runs with a chance only and else nothing does: as `withChance` has it. */
function quantileOf(flow: number, { below, above }: CellDoubt, chance: number, share: number): number {
  if (share <= 1 - chance) return 0;
  const within = chance >= 1 ? share : (share - (1 - chance)) / chance;
  if (within === HALF) return flow;
  const z = within === 0.1 ? -Z90 : within === 0.9 ? Z90 : normalQuantile(within);
  return flow * Math.exp(z * (z < 0 ? below : above));
}

const MANTISSA_BITS = 11;
/** Logarithms of 1 to 2 at the middles of equal steps. */
const MANTISSAS = Float64Array.from({ length: 1 << MANTISSA_BITS }, (_, k) =>
  Math.log(1 + (k + 0.5) / (1 << MANTISSA_BITS)),
);
const single = new Float32Array(1);
const bits = new Int32Array(single.buffer);
const EXPONENT_AT = 23;
const EXPONENT_OF_ONE = 127;

/** Natural logarithm to 1 in 4000 of its argument, of a positive number: looked up by exponent and mantissa. */
function quickLog(value: number): number {
  single[0] = value;
  const word = bits[0] as number;
  const mantissa = MANTISSAS[(word >> (EXPONENT_AT - MANTISSA_BITS)) & ((1 << MANTISSA_BITS) - 1)] as number;
  return ((word >> EXPONENT_AT) - EXPONENT_OF_ONE) * Math.LN2 + mantissa;
}

/** Chances beyond it count as certainty. */
const SURE = 0.9999;

/** Reads a table between its nodes, in logarithms; what was read beside the delivery stays in the reader. */
class TableReader {
  friction = 0;
  exponent = 0;
  lossDoubt = 0;
  #at = 0;
  #t = 0;
  #s = 0;
  readonly #table: DeliveryTable;
  readonly #perLift: number;
  readonly #perLength: number;
  readonly #firstLift: number;
  readonly #firstLength: number;

  constructor(table: DeliveryTable) {
    this.#table = table;
    this.#firstLift = Math.log(table.leastLift);
    this.#firstLength = Math.log(table.leastLength);
    this.#perLift = (table.nodes - 1) / (Math.log(table.mostLift) - this.#firstLift);
    this.#perLength = (table.nodes - 1) / (Math.log(table.mostLength) - this.#firstLength);
  }

  /** Logarithm of the delivery at a lift and a length; beyond the table the nearest that it has. */
  at(lift: Metres, length: Metres): number {
    const { nodes, logDelivery, leastLift, leastLength } = this.#table;
    const last = nodes - 1;
    const x = lift <= leastLift ? 0 : Math.min(last, (quickLog(lift) - this.#firstLift) * this.#perLift);
    const y = length <= leastLength ? 0 : Math.min(last, (quickLog(length) - this.#firstLength) * this.#perLength);
    const i = Math.min(last - 1, x | 0);
    const j = Math.min(last - 1, y | 0);
    const t = x - i;
    const s = y - j;
    const at = j * nodes + i;
    this.#at = at;
    this.#t = t;
    this.#s = s;
    const upper = (logDelivery[at] as number) * (1 - t) + (logDelivery[at + 1] as number) * t;
    const lower = (logDelivery[at + nodes] as number) * (1 - t) + (logDelivery[at + nodes + 1] as number) * t;
    return upper * (1 - s) + lower * s;
  }

  /** Chance that the pump runs against a delivery head. */
  chance(head: Metres): number {
    const { nodes, runs, leastLift } = this.#table;
    const x = head <= leastLift ? 0 : Math.min(nodes - 1, (quickLog(head) - this.#firstLift) * this.#perLift);
    const i = Math.min(nodes - 2, x | 0);
    const chance = (runs[i] as number) + ((runs[i + 1] as number) - (runs[i] as number)) * (x - i);
    return chance > SURE ? 1 : chance;
  }

  /** Reads the rest at the place that was read last. */
  rest(): void {
    const { nodes, frictionShare, exponent, lossDoubt } = this.#table;
    const [at, t, s] = [this.#at, this.#t, this.#s];
    const a = (1 - t) * (1 - s);
    const b = t * (1 - s);
    const c = (1 - t) * s;
    const d = t * s;
    const [east, south] = [at + 1, at + nodes];
    const across = south + 1;
    this.friction =
      a * (frictionShare[at] as number) +
      b * (frictionShare[east] as number) +
      c * (frictionShare[south] as number) +
      d * (frictionShare[across] as number);
    this.exponent =
      a * (exponent[at] as number) +
      b * (exponent[east] as number) +
      c * (exponent[south] as number) +
      d * (exponent[across] as number);
    const row = (at / nodes) | 0;
    this.lossDoubt = (lossDoubt[row] as number) * (1 - s) + (lossDoubt[row + 1] as number) * s;
  }
}

/** Deviations of the logarithm of what arrives at a cell, below and above. */
class CellDoubt {
  below = 0;
  above = 0;
  readonly #wish: ReachWish;
  readonly #covariance: CovarianceByDistance;
  /** Variance of a height on level ground, and what slope and curve add for each unit of theirs squared. */
  readonly #level: number;
  readonly #placed: number;
  readonly #smoothed: number;
  readonly #perColumn: number;
  readonly #perRow: number;
  readonly #source: number;
  readonly #pump: number;
  readonly #shared: number;
  /** What a metre of fall is worth in logarithms, below and above its likely value. */
  readonly #fallBelow: number;
  readonly #fallAbove: number;

  constructor(wish: ReachWish, most: Metres) {
    const { ground, accuracy, pump, source, table } = wish;
    this.#wish = wish;
    const sides = cellSides(ground);
    this.#level = ownVariance(accuracy, 0, 0);
    this.#placed = ownVariance(accuracy, 1, 0) - this.#level;
    this.#smoothed = ownVariance(accuracy, 0, 1 / SMOOTHED) - this.#level;
    this.#perColumn = 1 / (2 * sides.width);
    this.#perRow = 1 / (2 * sides.height);
    this.#covariance = new CovarianceByDistance(accuracy, most);
    this.#source = this.#own(source.cell);
    this.#pump = this.#own(pump.cell);
    const { columns } = ground;
    const apart = Math.hypot(
      ((source.cell % columns) - (pump.cell % columns)) * sides.width,
      (Math.floor(source.cell / columns) - Math.floor(pump.cell / columns)) * sides.height,
    );
    this.#shared = this.#covariance.at(apart);
    const deviation = Math.sqrt(Math.max(1e-12, this.#source + this.#pump - 2 * this.#shared));
    const share = (Z90 * deviation) / table.fall;
    this.#fallBelow = -Math.log(Math.max(LEAST_SHARE, 1 - share)) / (Z90 * deviation);
    this.#fallAbove = Math.log(1 + share) / (Z90 * deviation);
  }

  at(
    cell: number,
    { head, steepness, waveAbove }: PumpAt,
    waveBelow: number,
    read: TableReader,
    fromPump: Metres,
    fromSource: Metres,
  ): void {
    const tank = this.#own(cell);
    const withPump = this.#covariance.at(fromPump);
    const withSource = this.#covariance.at(fromSource);
    const { work } = this.#wish.table;
    const steady = 1 + read.exponent * read.friction * steepness;
    const line = read.friction * read.lossDoubt * steepness;
    const perLift = steepness / head;
    const others = line * line + perLift * perLift * tank;
    for (let side = 0; side < 2; side++) {
      const perFall = side === 0 ? this.#fallBelow : this.#fallAbove;
      const ofWork = side === 0 ? work.below : work.above;
      const ofPump = perLift - perFall;
      const ofWave = side === 0 ? waveBelow : waveAbove;
      const variance =
        others +
        ofWork * ofWork +
        ofWave * ofWave +
        perFall * perFall * this.#source +
        ofPump * ofPump * this.#pump +
        2 * (perFall * ofPump * this.#shared - perFall * perLift * withSource - ofPump * perLift * withPump);
      const deviation = Math.sqrt(Math.max(variance, 0)) / steady;
      if (side === 0) this.below = deviation;
      else this.above = deviation;
    }
  }

  /** Variance of the height of a cell, with the slope and the curve of the ground around it. */
  #own(cell: number): number {
    const { columns, rows, heights, open } = this.#wish.ground;
    const row = (cell / columns) | 0;
    const column = cell - row * columns;
    if (column < 1 || row < 1 || column > columns - 2 || row > rows - 2) return this.#level;
    const [west, east, north, south] = [cell - 1, cell + 1, cell - columns, cell + columns];
    if (open[west] !== 1 || open[east] !== 1 || open[north] !== 1 || open[south] !== 1) return this.#level;
    const [w, e] = [heights[west] as number, heights[east] as number];
    const [n, s] = [heights[north] as number, heights[south] as number];
    const alongRow = (e - w) * this.#perColumn;
    const alongColumn = (n - s) * this.#perRow;
    const smoothing = w + e + n + s - 4 * (heights[cell] as number);
    // As `ownVariance` has it, with what does not change from cell to cell reckoned once.
    return (
      this.#level +
      this.#placed * (alongRow * alongRow + alongColumn * alongColumn) +
      this.#smoothed * smoothing * smoothing
    );
  }
}

/** A mean over a cell lies above its middle by a 24th of the second differences. Source: closed form, as `smoothingAt` has it. */
const SMOOTHED = 24;
/** A fall that may well be nought brings as good as nothing. */
const LEAST_SHARE = 1e-6;
