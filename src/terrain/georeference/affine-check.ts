import { refuse } from '../bytes/file-refusal.ts';
import type { Affine } from '../grid/grid.ts';

/** Cell sizes beyond which a file's scale is a mistake, in units of the CRS. Common practice, no source. */
const CELL_LIMITS = {
  projected: { least: 0.01, most: 20_000 },
  geographic: { least: 1e-8, most: 1 },
} as const;

const FURTHEST_PROJECTED = 1e9;
const FURTHEST_LAT = 90.5;
const FURTHEST_LON = 540;

/** Refuses an affine that cannot be a place on the earth. */
export function checkAffine(affine: Affine, size: { columns: number; rows: number }, geographic: boolean): void {
  const { a, b, c, d, e, f } = affine;
  if (![a, b, c, d, e, f].every(Number.isFinite)) {
    refuse({
      code: 'affine',
      where: '',
      found: `${a}, ${b}, ${c}, ${d}, ${e}, ${f}`,
      expected: 'six finite numbers that place the cells',
    });
  }
  const { least, most } = CELL_LIMITS[geographic ? 'geographic' : 'projected'];
  const cell = Math.sqrt(Math.abs(a * e - b * d));
  const unit = geographic ? 'degrees' : 'units of the CRS';
  if (!(cell >= least && cell <= most)) {
    refuse({ code: 'cell-size', where: '', found: `${cell} ${unit}`, expected: `${least} to ${most} ${unit}` });
  }
  for (const column of [0, size.columns]) {
    for (const row of [0, size.rows]) {
      checkCorner(a * column + b * row + c, d * column + e * row + f, geographic);
    }
  }
}

function checkCorner(x: number, y: number, geographic: boolean): void {
  const inside = geographic
    ? Math.abs(x) <= FURTHEST_LON && Math.abs(y) <= FURTHEST_LAT
    : Math.abs(x) <= FURTHEST_PROJECTED && Math.abs(y) <= FURTHEST_PROJECTED;
  if (inside) return;
  refuse({
    code: 'off-the-earth',
    where: '',
    found: `a corner at ${x}, ${y}`,
    expected: geographic ? 'longitude and latitude in degrees' : `coordinates within ±${FURTHEST_PROJECTED}`,
  });
}
