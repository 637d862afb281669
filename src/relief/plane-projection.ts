import type { Position } from '../geodesy/position.ts';

/** From places on the ellipsoid to the plane of a CRS and back; numbers that are not finite mean "outside". */
export interface PlaneProjection {
  toPlane(position: Position): { readonly x: number; readonly y: number };
  toPosition(plane: { readonly x: number; readonly y: number }): Position;
}
