import type { FieldPlace } from '../search/height-field.ts';

/** An area that must not be crossed, as rings in cells of a field (the first around it, others holes), and its gates. */
export interface ShutArea {
  readonly rings: readonly (readonly FieldPlace[])[];
  /** Places at which it may be crossed all the same. */
  readonly gates: readonly FieldPlace[];
}

/** How far to either side of a gate's way cells are open, in cells: wide enough for every kind of step. */
const GATE_CELLS = 1.5;

/**
 * Cells that areas shut, 1 each: those whose middle lies inside, and every cell that their outline touches, so that no step
 * slips through a corner. A gate opens the way across: the cells around it and those straight through the area there.
 */
export function shutCells(
  size: { readonly columns: number; readonly rows: number },
  areas: readonly ShutArea[],
  gateReach: number = GATE_CELLS,
): Uint8Array {
  const shut = new Uint8Array(size.columns * size.rows);
  for (const { rings } of areas) {
    fillInside(shut, size, rings);
    for (const ring of rings) {
      ring.forEach((from, k) => {
        markAlong(shut, size, from, ring[(k + 1) % ring.length] ?? from);
      });
    }
  }
  for (const { gates } of areas) for (const gate of gates) openAcross(shut, size, gate, gateReach);
  return shut;
}

type Size = { readonly columns: number; readonly rows: number };

/** Even-odd rule along each row of middles. */
function fillInside(shut: Uint8Array, { columns, rows }: Size, rings: readonly (readonly FieldPlace[])[]): void {
  for (let row = 0; row < rows; row++) {
    const crossings: number[] = [];
    for (const ring of rings) {
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] ?? a;
        if (a.row > row === b.row > row) return;
        crossings.push(a.column + ((row - a.row) / (b.row - a.row)) * (b.column - a.column));
      });
    }
    crossings.sort((x, y) => x - y);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const first = Math.max(0, Math.ceil(crossings[k] as number));
      const last = Math.min(columns - 1, Math.floor(crossings[k + 1] as number));
      for (let column = first; column <= last; column++) shut[row * columns + column] = 1;
    }
  }
}

/** Every cell that a straight piece passes through, by samples a quarter of a cell apart. */
function markAlong(shut: Uint8Array, { columns, rows }: Size, from: FieldPlace, to: FieldPlace): void {
  const far = Math.max(Math.abs(to.column - from.column), Math.abs(to.row - from.row));
  const samples = Math.max(1, Math.ceil(far * 4));
  for (let k = 0; k <= samples; k++) {
    const column = Math.round(from.column + ((to.column - from.column) * k) / samples);
    const row = Math.round(from.row + ((to.row - from.row) * k) / samples);
    if (column >= 0 && row >= 0 && column < columns && row < rows) shut[row * columns + column] = 1;
  }
}

/** Directions in which a gate's way across is looked for, and how far it may be, in cells. */
const DIRECTIONS = 24;
const WIDEST_CROSSING = 200;

/** Opens the shortest straight way across through a gate, `reach` cells to either side of it. */
function openAcross(shut: Uint8Array, size: Size, gate: FieldPlace, reach: number): void {
  let best: readonly [FieldPlace, FieldPlace] = [gate, gate];
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < DIRECTIONS; k++) {
    const angle = (Math.PI * k) / DIRECTIONS;
    const ahead = wayOut(shut, size, gate, Math.cos(angle), Math.sin(angle));
    const behind = wayOut(shut, size, gate, -Math.cos(angle), -Math.sin(angle));
    if (ahead + behind >= least) continue;
    least = ahead + behind;
    best = [alongFrom(gate, angle, -behind), alongFrom(gate, angle, ahead)];
  }
  if (least < Number.POSITIVE_INFINITY) openStrip(shut, size, best, reach);
}

const alongFrom = ({ column, row }: FieldPlace, angle: number, by: number): FieldPlace => ({
  column: column + Math.cos(angle) * by,
  row: row + Math.sin(angle) * by,
});

/** Cells from a gate to open ground in a direction; infinite where there is none near. */
function wayOut(shut: Uint8Array, { columns, rows }: Size, gate: FieldPlace, dc: number, dr: number): number {
  for (let far = 0; far <= WIDEST_CROSSING; far += 0.5) {
    const column = Math.round(gate.column + dc * far);
    const row = Math.round(gate.row + dr * far);
    if (column < 0 || row < 0 || column >= columns || row >= rows) return Number.POSITIVE_INFINITY;
    if (shut[row * columns + column] !== 1) return far;
  }
  return Number.POSITIVE_INFINITY;
}

function openStrip(
  shut: Uint8Array,
  { columns, rows }: Size,
  [from, to]: readonly [FieldPlace, FieldPlace],
  reach: number,
): void {
  const samples = Math.max(1, Math.ceil(Math.hypot(to.column - from.column, to.row - from.row) * 2));
  for (let k = 0; k <= samples; k++) {
    const column = from.column + ((to.column - from.column) * k) / samples;
    const row = from.row + ((to.row - from.row) * k) / samples;
    for (let r = Math.ceil(row - reach); r <= row + reach; r++) {
      for (let c = Math.ceil(column - reach); c <= column + reach; c++) {
        if (c >= 0 && r >= 0 && c < columns && r < rows) shut[r * columns + c] = 0;
      }
    }
  }
}
