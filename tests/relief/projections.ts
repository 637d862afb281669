import proj4 from 'proj4';
import type { PlaneProjection } from '../../src/relief/plane-projection.ts';

/** A projection through proj4 itself, without the planner's own registry. */
export function projection(definition: string): PlaneProjection {
  const converter = proj4(definition);
  return {
    toPlane: ({ lon, lat }) => {
      const [x, y] = converter.forward([lon, lat]);
      return { x: x ?? Number.NaN, y: y ?? Number.NaN };
    },
    toPosition: ({ x, y }) => {
      const [lon, lat] = converter.inverse([x, y]);
      return { lon: lon ?? Number.NaN, lat: lat ?? Number.NaN };
    },
  };
}

export const UTM_32N = '+proj=utm +zone=32 +datum=WGS84 +units=m +no_defs';
export const LON_LAT = '+proj=longlat +datum=WGS84 +no_defs';
