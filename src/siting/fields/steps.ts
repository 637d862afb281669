import type { Metres } from '../../units/quantity.ts';
import type { OpenGround } from './open-ground.ts';

/**
 * The steps from a cell to its 16 neighbours: four beside it, four across a corner, eight a knight's move away. Each passes
 * beside one or two cells; where those count, `one` and `other` are their offsets.
 */
export interface Steps {
  readonly count: number;
  readonly columns: Int8Array;
  readonly rows: Int8Array;
  /** Offset of the cell index. */
  readonly offset: Int32Array;
  /** Level length, m. */
  readonly run: Float64Array;
  /** Cells passed beside; the step's own start where there is none. */
  readonly one: Int32Array;
  readonly other: Int32Array;
}

const BESIDE = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;
const CORNER = [
  [1, 1],
  [-1, 1],
  [-1, -1],
  [1, -1],
] as const;
const KNIGHT = [
  [2, 1],
  [1, 2],
  [-1, 2],
  [-2, 1],
  [-2, -1],
  [-1, -2],
  [1, -2],
  [2, -1],
] as const;

/** How many of the steps go to a cell beside, and how many of them to a cell across a corner or beside. */
export const BESIDE_STEPS = 4;
export const CORNER_STEPS = 8;

export function stepsOn({ columns, cell }: OpenGround, neighbours: 4 | 8 | 16): Steps {
  const all = [...BESIDE, ...CORNER, ...KNIGHT].slice(0, neighbours);
  const offsetOf = (c: number, r: number): number => r * columns + c;
  const passed = all.map(([c, r]) => passedBy(c, r));
  return {
    count: all.length,
    columns: Int8Array.from(all, ([c]) => c),
    rows: Int8Array.from(all, ([, r]) => r),
    offset: Int32Array.from(all, ([c, r]) => offsetOf(c, r)),
    run: Float64Array.from(all, ([c, r]) =>
      Math.hypot(c * cell.eastPerColumn + r * cell.eastPerRow, c * cell.northPerColumn + r * cell.northPerRow),
    ),
    one: Int32Array.from(passed, ([[c, r]]) => offsetOf(c, r)),
    other: Int32Array.from(passed, ([, [c, r]]) => offsetOf(c, r)),
  };
}

type Offset = readonly [number, number];

/** The two cells that a step passes between: those of the corner, or those astride a knight's move's middle. */
function passedBy(c: number, r: number): readonly [Offset, Offset] {
  if (Math.abs(c) + Math.abs(r) === 1)
    return [
      [0, 0],
      [0, 0],
    ];
  if (Math.abs(c) === Math.abs(r))
    return [
      [c, 0],
      [0, r],
    ];
  const along: Offset = Math.abs(c) > Math.abs(r) ? [Math.sign(c), 0] : [0, Math.sign(r)];
  return [along, [Math.sign(c), Math.sign(r)]];
}

/** The shortest step, m: what a queue of buckets may be as wide as. */
export const shortestStep = ({ run }: Steps): Metres => Math.min(...run);
