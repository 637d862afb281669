import type { FeatureCollection } from 'geojson';
import { destination } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';

export interface DevicePlace {
  readonly position: Position;
  /** Radius within which it surely is, m. */
  readonly accuracy: Metres;
}

/** Corners of the ring that stands for a circle. */
const CORNERS = 48;

/** Where the device is, and the ring within which it says it is. */
export function deviceFeatures(place: DevicePlace | null): FeatureCollection {
  if (place === null) return { type: 'FeatureCollection', features: [] };
  const { position, accuracy } = place;
  const ring = Array.from({ length: CORNERS + 1 }, (_, at) => {
    const { lon, lat } = destination(position, { distance: accuracy, azimuth: (360 * (at % CORNERS)) / CORNERS });
    return [lon, lat];
  });
  return {
    type: 'FeatureCollection',
    features: [
      { type: 'Feature', properties: {}, geometry: { type: 'Polygon', coordinates: [ring] } },
      { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [position.lon, position.lat] } },
    ],
  };
}
