import { cellOnGround, cellSize } from '../../terrain/grid/placed-grid.ts';
import type { PictureAbout } from '../levels/picture-about.ts';
import type { PictureFile } from './open-picture.ts';

/** Null for a picture whose middle has no place on the ellipsoid. */
export function aboutPicture({ placed, pyramid }: PictureFile): PictureAbout | null {
  const { name, columns, rows } = placed.grid;
  const middle = cellOnGround(placed, { column: columns / 2, row: rows / 2 });
  if (!middle) return null;
  const pixel = cellSize(middle);
  const { farthest } = pyramid;
  const corners = [
    { column: 0, row: 0 },
    { column: columns, row: 0 },
    { column: columns, row: rows },
    { column: 0, row: rows },
  ];
  return {
    file: name,
    crs: placed.projection.name,
    size: { columns, rows },
    pixel,
    outline: corners.flatMap((corner) => placed.positionAt(corner) ?? []),
    farthest: farthest === null ? null : farthest * Math.sqrt(pixel.width * pixel.height),
  };
}
