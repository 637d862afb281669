import type { Metres, Ratio } from '../../units/quantity.ts';
import { type HeightField, levelDistance } from './height-field.ts';

/**
 * A place passed on a move, with two cells beside it as offsets of the cell index.
 *
 * z = ends (z₀ + z₁)/2 + (1 − ends) ((1 − share) z_one + share z_other); z₀, z₁ the heights at the ends of the move.
 * Exact for the bilinear ground.
 */
export interface Between {
  readonly one: number;
  readonly other: number;
  readonly share: Ratio;
  readonly ends: Ratio;
}

/** A move from the middle of a cell to the middle of another, in equal steps over the grid lines or patch that it crosses. */
export interface Move {
  readonly columns: number;
  readonly rows: number;
  /** Offset of the cell index. */
  readonly offset: number;
  /** Level length of one step. */
  readonly step: Metres;
  /** Level length of the whole move. */
  readonly run: Metres;
  readonly between: readonly Between[];
}

/** Steps to 16 neighbours: the eight around a cell and the eight a knight's move away. */
const SIXTEEN = [
  [1, 0],
  [1, 1],
  [2, 1],
] as const;

/** Steps to 32 neighbours: those and the moves of three cells. */
const THIRTY_TWO = [...SIXTEEN, [3, 1], [3, 2]] as const;

/** A way on a grid of 16 neighbours is at most 2.75 % longer than a straight one, of 32 at most 1.31 % (closed form). */
export function movesOf(field: HeightField, neighbours: 16 | 32): Move[] {
  const kinds = neighbours === 16 ? SIXTEEN : THIRTY_TWO;
  const all = kinds.flatMap(([a, b]) => turned(a, b));
  return all.map(([columns, rows]) => moveOf(field, columns, rows));
}

/** A step and its mirror images, each once. */
function turned(a: number, b: number): [number, number][] {
  const images: [number, number][] = [];
  for (const [x, y] of [
    [a, b],
    [b, a],
  ] as const) {
    for (const sx of [1, -1]) for (const sy of [1, -1]) images.push([sx * x, sy * y]);
  }
  const byName = new Map(images.map(([x, y]) => [`${x + 0},${y + 0}`, [x + 0, y + 0] as [number, number]]));
  return [...byName.values()];
}

function moveOf(field: HeightField, columns: number, rows: number): Move {
  const between =
    columns === rows || columns === -rows ? [acrossPatch(field, columns, rows)] : overLines(field, columns, rows);
  const run = levelDistance(field, columns, rows);
  return { columns, rows, offset: rows * field.columns + columns, step: run / (between.length + 1), run, between };
}

/** The middle of the patch that a diagonal move crosses: the mean of its four corners. */
function acrossPatch(field: HeightField, columns: number, rows: number): Between {
  return { one: columns, other: rows * field.columns, share: 0.5, ends: 0.5 };
}

/** The grid lines that a longer move crosses, each between two cells; a move to a cell beside crosses none. */
function overLines(field: HeightField, columns: number, rows: number): Between[] {
  const long = Math.max(Math.abs(columns), Math.abs(rows));
  const alongColumns = Math.abs(columns) >= Math.abs(rows);
  const offset = (along: number, aside: number): number =>
    alongColumns ? aside * field.columns + along : along * field.columns + aside;
  return Array.from({ length: long - 1 }, (_, k) => {
    const way = (k + 1) / long;
    const along = Math.round((alongColumns ? columns : rows) * way);
    const aside = (alongColumns ? rows : columns) * way;
    const low = Math.floor(aside);
    return { one: offset(along, low), other: offset(along, low + 1), share: aside - low, ends: 0 };
  });
}
