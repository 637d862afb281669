import { refuse } from '../bytes/file-refusal.ts';
import type { Affine } from '../grid/grid.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { TAG } from '../tiff/tiff-tags.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';

/** How a file fixes its cells in its CRS, and whether its coordinates mean corners or middles of cells. */
export interface FileAffine {
  readonly affine: Affine;
  readonly cellsAre: 'area' | 'point';
  /** A negative Y scale, which readers take in two ways: as rows that run northwards, or as a slip of the writer. */
  readonly negativeScaleY: boolean;
}

export interface AffineOptions {
  /** Takes the scale by its size alone, as most readers do, so that rows run southwards. */
  readonly scaleYWithoutSign?: boolean;
}

const PIXEL_IS_POINT = 2;

/**
 * The affine of a file for corners of cells at whole numbers.
 *
 * Scale with a tiepoint comes before a matrix, as GDAL has it. With the tiepoint (i, j) ↦ (X, Y):
 * x = X + (column − i) s_x, y = Y − (row − j) s_y. Where the file says that its coordinates are those of the middle of a
 * cell, half a cell is taken off both columns and rows. Source: OGC GeoTIFF 1.1 (19-008r4), annex B.6 and section 7.1.2.
 */
export async function readAffine(tags: TagValues, keys: GeoKeys, options: AffineOptions = {}): Promise<FileAffine> {
  const stated = await tags.numbers(TAG.ModelPixelScale);
  const negativeScaleY = (stated?.[1] ?? 0) < 0;
  const scale = options.scaleYWithoutSign === true ? stated?.map(Math.abs) : stated;
  const tie = await tags.numbers(TAG.ModelTiepoint);
  const matrix = await tags.numbers(TAG.ModelTransformation);
  const cellsAre = keys.number(KEY.RasterType) === PIXEL_IS_POINT ? 'point' : 'area';
  const half = cellsAre === 'point' ? 0.5 : 0;
  const scaled = scale !== undefined && scale.length >= 2 && scale[0] !== 0 && scale[1] !== 0;
  if (scaled && tie !== undefined && tie.length >= 6) {
    if (tie.length > 6) checkTiepoints(tie, scale);
    return { affine: shifted(fromTiepoint(scale, tie), half), cellsAre, negativeScaleY };
  }
  if (matrix !== undefined && matrix.length >= 8) {
    return { affine: shifted(fromMatrix(matrix), half), cellsAre, negativeScaleY: false };
  }
  return refuse({
    code: 'no-georeferencing',
    where: '',
    found: tie !== undefined && tie.length > 6 ? 'control points only' : 'no place in the world',
    expected: 'ModelPixelScale with ModelTiepoint, ModelTransformation, or a world file beside it (.tfw)',
  });
}

/** Whether a file says itself where its cells lie. */
export async function isPlaced(tags: TagValues): Promise<boolean> {
  const scale = await tags.numbers(TAG.ModelPixelScale);
  return scale !== undefined || (await tags.numbers(TAG.ModelTransformation)) !== undefined;
}

function fromTiepoint(scale: readonly number[], tie: readonly number[]): Affine {
  const [sx = 0, sy = 0] = scale;
  const [i = 0, j = 0, , x = 0, y = 0] = tie;
  return { a: sx, b: 0, c: x - i * sx, d: 0, e: -sy, f: y + j * sy };
}

function fromMatrix(matrix: readonly number[]): Affine {
  const [a = 0, b = 0, , c = 0, d = 0, e = 0, , f = 0] = matrix;
  return { a, b, c, d, e, f };
}

function shifted(affine: Affine, half: number): Affine {
  if (half === 0) return affine;
  const { a, b, c, d, e, f } = affine;
  return { a, b, c: c - half * (a + b), d, e, f: f - half * (d + e) };
}

/** Further tiepoints must say the same as the first. */
function checkTiepoints(tie: readonly number[], scale: readonly number[]): void {
  const first = fromTiepoint(scale, tie);
  for (let k = 6; k + 6 <= tie.length; k += 6) {
    const other = fromTiepoint(scale, tie.slice(k, k + 6));
    const off = Math.max(
      Math.abs(other.c - first.c) / Math.abs(first.a),
      Math.abs(other.f - first.f) / Math.abs(first.e),
    );
    if (!(off < 0.01)) {
      refuse({
        code: 'tiepoints-disagree',
        where: 'ModelTiepoint',
        found: `a tiepoint ${off.toPrecision(3)} cells off the first`,
        expected: 'tiepoints that agree with the scale',
      });
    }
  }
}
