import type { Metres, Ratio } from '../../units/quantity.ts';
import type { HeightBlock } from '../grid/grid.ts';
import type { CellPlace } from '../grid/placed-grid.ts';

/** Cells around a place that are looked at: every second one, up to six off, and the neighbours of those two off. */
const REACH = 6;
const STEP = 2;
export const ROUGHNESS_MARGIN = REACH + 2;

/** So few places tell nothing of the ground's roughness. */
const FEWEST = 6;

/**
 * Mean square of the smoothing that a second difference of 1 along either axis shows at places spread evenly over a cell:
 * E[(1/24 + t(1 − t)/2)²] = 1/64 + 1/120 − 1/144, and of the two axes together (1/8)². Source: derived, closed form.
 */
const ALONE = 1 / 64 + 1 / 120 - 1 / 144;
const TOGETHER = 1 / 64;

/**
 * How many times the smoothing that the grid's own curvature shows averaging truly does, by how much larger its second
 * differences over two cells are than over one. Four times larger is a smooth surface, whose whole smoothing shows; ground that is
 * rough at every scale keeps most of it below the cell. Calibrated on made ground that is rough at every scale (Hurst 0.6 to
 * 0.9) and on averaged lidar by `npm run bench -- height-bands`, not published.
 */
const TIMES: readonly (readonly [growth: Ratio, times: Ratio])[] = [
  [1.8, 2.3],
  [1.95, 2.1],
  [2.12, 1.8],
  [2.22, 1.66],
  [2.5, 1.32],
  [3, 1.16],
  [3.5, 1.02],
];

/**
 * Standard deviation of what averaging over cells does to heights around a place, m, from how rough the grid is there and how
 * its roughness grows with distance; null where too little of it is known.
 */
export function averagingErrorAt(block: HeightBlock, place: CellPlace): Metres | null {
  const { columns, rows, known, heights } = block;
  const column = Math.floor(place.column) - block.column;
  const row = Math.floor(place.row) - block.row;
  let shown = 0;
  let near = 0;
  let far = 0;
  let count = 0;
  for (let r = row - REACH; r <= row + REACH; r += STEP) {
    if (r < 2 || r >= rows - 2) continue;
    for (let c = column - REACH; c <= column + REACH; c += STEP) {
      if (c < 2 || c >= columns - 2) continue;
      const at = r * columns + c;
      if (!isWhole(known, at, columns)) continue;
      const twice = 2 * (heights[at] as number);
      const x = (heights[at - 1] as number) + (heights[at + 1] as number) - twice;
      const y = (heights[at - columns] as number) + (heights[at + columns] as number) - twice;
      const wideX = (heights[at - 2] as number) + (heights[at + 2] as number) - twice;
      const wideY = (heights[at - 2 * columns] as number) + (heights[at + 2 * columns] as number) - twice;
      const both = x * x + y * y;
      shown += ALONE * both + 2 * TOGETHER * x * y;
      near += both;
      far += wideX * wideX + wideY * wideY;
      count++;
    }
  }
  if (count < FEWEST) return null;
  return near === 0 ? 0 : timesOf(Math.sqrt(far / near)) * Math.sqrt(shown / count);
}

function isWhole(known: Uint8Array, at: number, columns: number): boolean {
  const across = (known[at] as number) + (known[at - 1] as number) + (known[at + 1] as number);
  const down = (known[at - columns] as number) + (known[at + columns] as number);
  const wide = (known[at - 2] as number) + (known[at + 2] as number);
  const tall = (known[at - 2 * columns] as number) + (known[at + 2 * columns] as number);
  return across + down + wide + tall === 9;
}

/** Straight between the calibrated growths, level beyond them. */
function timesOf(growth: Ratio): Ratio {
  const above = TIMES.findIndex(([g]) => g >= growth);
  const [, last = 1] = TIMES.at(-1) ?? [];
  if (above < 0) return last;
  const [g1 = 0, t1 = 1] = TIMES[above] ?? [];
  if (above === 0) return t1;
  const [g0 = 0, t0 = 1] = TIMES[above - 1] ?? [];
  return t0 + ((t1 - t0) * (growth - g0)) / (g1 - g0);
}
