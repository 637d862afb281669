import type { Position } from '../../geodesy/position.ts';
import { asIs } from './scale.ts';

export type Coordinates = [number, number];

export function toCoordinates({ lon, lat }: Position): Coordinates {
  return [asIs.toFile(lon), asIs.toFile(lat)];
}

export function fromCoordinates([lon, lat]: Coordinates): Position {
  return { lon: asIs.fromFile(lon), lat: asIs.fromFile(lat) };
}
