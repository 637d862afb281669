import { projectionOf } from '../../geodesy/projection.ts';
import type { CrsReference } from '../../geodesy/wgs84.ts';
import { FileRefusal } from '../../terrain/bytes/file-refusal.ts';
import { checkAffine } from '../../terrain/georeference/affine-check.ts';
import { answeredCrs } from '../../terrain/georeference/answered-crs.ts';
import type { Affine } from '../../terrain/grid/grid.ts';
import { type GridFrame, type PlacedGrid, placedGrid } from '../../terrain/grid/placed-grid.ts';

/** What a picture's companions and its user say of its place. */
export interface PictureOptions {
  /** Of the world file beside it. */
  readonly affine?: Affine;
  /** Of the projection file or metadata beside it. */
  readonly crs?: CrsReference;
  /** EPSG code that the user named; comes before what the files say. */
  readonly answeredCrs?: number;
}

/** Puts a picture into the world; asks for its CRS where neither it nor its companions state one. */
export async function placePicture(
  grid: GridFrame,
  stated: CrsReference | null,
  answered: number | undefined,
): Promise<PlacedGrid<GridFrame>> {
  const answers = answered === undefined ? {} : { crs: answered };
  const known = answered === undefined ? stated : null;
  const reference = known ?? answeredCrs(grid.name, grid, answers);
  const projection = await projectionOf(reference);
  if (!projection.ok) {
    const [problem = { code: 'crs', path: '', found: 'none', expected: 'a CRS that can be computed' }] =
      projection.problems;
    throw new FileRefusal({ ...problem, path: grid.name });
  }
  checkAffine(grid.affine, grid, projection.value.geographic);
  return placedGrid(grid, projection.value);
}
