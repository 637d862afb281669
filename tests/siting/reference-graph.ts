import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import type { HeightField } from '../../src/siting/search/height-field.ts';

interface Spot {
  readonly column: number;
  readonly row: number;
}

/** What a piece between two heights costs; null where it must not be. */
export type PieceCost = (run: number, from: number, to: number) => number | null;

/** Where along a move the bilinear ground bends: at the grid lines that it crosses, or in the middle of a patch. */
function bends(columns: number, rows: number): number[] {
  const long = Math.max(Math.abs(columns), Math.abs(rows));
  if (long === 1 && Math.abs(columns) === Math.abs(rows)) return [0, 0.5, 1];
  return Array.from({ length: long + 1 }, (_, k) => k / long);
}

function ground({ columns, heights }: HeightField, column: number, row: number): number {
  const [c, r] = [Math.floor(column), Math.floor(row)];
  const [t, s] = [column - c, row - r];
  const z = (dc: number, dr: number, weight: number) =>
    weight === 0 ? 0 : weight * (heights[(r + dr) * columns + c + dc] ?? Number.NaN);
  return z(0, 0, (1 - t) * (1 - s)) + z(1, 0, t * (1 - s)) + z(0, 1, (1 - t) * s) + z(1, 1, t * s);
}

function costOf(field: HeightField, from: Spot, to: Spot, shares: readonly number[], piece: PieceCost): number | null {
  const [columns, rows] = [to.column - from.column, to.row - from.row];
  if (columns === 0 && rows === 0) return 0;
  const run = Math.hypot(columns, rows) / (shares.length - 1);
  const z = shares.map((share) => ground(field, from.column + share * columns, from.row + share * rows));
  let sum = 0;
  for (let k = 1; k < z.length; k++) {
    const cost = piece(run, z[k - 1] ?? 0, z[k] ?? 0);
    if (cost === null) return null;
    sum += cost;
  }
  return sum;
}

const halfCells = (columns: number, rows: number): number[] => {
  const steps = 2 * Math.max(Math.abs(columns), Math.abs(rows));
  return Array.from({ length: steps + 1 }, (_, k) => k / steps);
};

/**
 * The least cost between the middles of two cells of a field of metre cells without voids, by an open graph library: 16 moves
 * between cells, legs from each end to the square of cells around it, and the straight leg. Null when there is no way.
 */
export function referenceCost(field: HeightField, from: Spot, to: Spot, piece: PieceCost): number | null {
  const graph = createGraph<null, number>();
  const name = ({ column, row }: Spot) => `${column},${row}`;
  const inside = ({ column, row }: Spot) => column >= 0 && row >= 0 && column < field.columns && row < field.rows;
  const link = (a: string, b: string, cost: number | null) => {
    if (cost !== null) graph.addLink(a, b, cost);
  };
  const squares = [-1, 0, 1, 2].flatMap((r) => [-1, 0, 1, 2].map((c) => ({ column: c, row: r })));
  graph.addNode('from', null);
  graph.addNode('to', null);
  for (let row = 0; row < field.rows; row++) {
    for (let column = 0; column < field.columns; column++) {
      for (let r = -2; r <= 2; r++) {
        for (let c = -2; c <= 2; c++) {
          const next = { column: column + c, row: row + r };
          const isMove = Math.max(Math.abs(c), Math.abs(r)) === 1 || Math.abs(c * r) === 2;
          if (!isMove || !inside(next)) continue;
          link(name({ column, row }), name(next), costOf(field, { column, row }, next, bends(c, r), piece));
        }
      }
    }
  }
  for (const { column, row } of squares) {
    const near = { column: from.column + column, row: from.row + row };
    const far = { column: to.column + column, row: to.row + row };
    const shares = halfCells(column, row);
    if (inside(near)) link('from', name(near), costOf(field, from, near, shares, piece));
    if (inside(far)) link(name(far), 'to', costOf(field, far, to, shares, piece));
  }
  link('from', 'to', costOf(field, from, to, halfCells(to.column - from.column, to.row - from.row), piece));
  const found = aStar(graph, { oriented: true, distance: (_a, _b, { data }) => data }).find('from', 'to');
  if (found.length === 0) return null;
  const way = found.map(({ id }) => String(id)).reverse();
  return way.slice(1).reduce((sum, id, k) => sum + (graph.getLink(way[k] ?? '', id)?.data ?? Number.NaN), 0);
}
