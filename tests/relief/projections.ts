import proj4 from 'proj4';
import type { Projection } from '../../src/geodesy/projection.ts';

/** A projection through proj4 itself, without the planner's own registry. */
export function projection(definition: string): Projection {
  const converter = proj4(definition);
  return {
    name: definition,
    code: null,
    geographic: definition.includes('longlat'),
    metresPerUnit: 1,
    shift: { name: 'none', accuracy: null },
    area: null,
    forward: ({ lon, lat }) => converter.forward({ x: lon, y: lat }),
    inverse: (place) => {
      const { x, y } = converter.inverse({ x: place.x, y: place.y });
      return { lon: x, lat: y };
    },
  };
}

export const UTM_32N = '+proj=utm +zone=32 +datum=WGS84 +units=m +no_defs';
export const LON_LAT = '+proj=longlat +datum=WGS84 +no_defs';
