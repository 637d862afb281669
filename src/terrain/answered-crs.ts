import type { FileCrs } from './file-crs.ts';
import type { Affine } from './grid.ts';
import { FileQuestion, type OpenAnswers } from './open-answers.ts';

/** Where the cells of a file lie. */
interface Extent {
  readonly affine: Affine;
  readonly columns: number;
  readonly rows: number;
}

/** Largest cell that is taken for one in degrees. Common practice, no source. */
const LARGEST_DEGREES = 0.5;

/** Whether coordinates can only be degrees: all corners fit them, and nobody maps a farm within 360 m of a grid's origin. */
export function looksGeographic({ affine, columns, rows }: Extent): boolean {
  const corners = cornersOf({ affine, columns, rows });
  const fit = corners.every((value, i) => Math.abs(value) <= (i % 2 === 0 ? 360 : 90));
  return fit && Math.hypot(affine.a, affine.d) < LARGEST_DEGREES;
}

/** The CRS that the user named; asks for it where nobody did. */
export function answeredCrs(file: string, extent: Extent, answers: OpenAnswers): FileCrs {
  if (answers.crs === undefined) {
    throw new FileQuestion({ kind: 'question', about: 'crs', file, corners: cornersOf(extent) });
  }
  const reference = { kind: 'epsg', code: answers.crs } as const;
  return { reference, geographic: looksGeographic(extent), gridInFeet: false };
}

function cornersOf({ affine, columns, rows }: Extent): readonly [number, number, number, number] {
  const { a, b, c, d, e, f } = affine;
  const xs = [c, c + a * columns, c + b * rows, c + a * columns + b * rows];
  const ys = [f, f + d * columns, f + e * rows, f + d * columns + e * rows];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
