import type { Affine, CrsReference } from '../grid/grid.ts';
import { FileQuestion, type OpenAnswers } from './open-answers.ts';

/** Where the cells of a file lie. */
export interface Extent {
  readonly affine: Affine;
  readonly columns: number;
  readonly rows: number;
}

/** The CRS that the user named; asks for it where nobody did. */
export function answeredCrs(file: string, extent: Extent, answers: OpenAnswers): CrsReference {
  if (answers.crs === undefined) {
    throw new FileQuestion({ kind: 'question', about: 'crs', file, corners: cornersOf(extent) });
  }
  return { kind: 'epsg', code: answers.crs };
}

function cornersOf({ affine, columns, rows }: Extent): readonly [number, number, number, number] {
  const { a, b, c, d, e, f } = affine;
  const xs = [c, c + a * columns, c + b * rows, c + a * columns + b * rows];
  const ys = [f, f + d * columns, f + e * rows, f + d * columns + e * rows];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
