const DEGREE = Math.PI / 180;
/** Semi-major axis, m, and squared eccentricity of the WGS 84 ellipsoid (EPSG 7030). */
const AXIS = 6378137;
const ECCENTRICITY_2 = 0.00669437999014;

/**
 * Lengths of a degree at a latitude, m: of longitude a cos φ / √(1 − e² sin² φ) and of latitude
 * a (1 − e²) / (1 − e² sin² φ)^(3/2), each times π/180. Good to a millimetre over a farm's distances.
 */
export function degreeAt(lat) {
  const bent = 1 - ECCENTRICITY_2 * Math.sin(lat * DEGREE) ** 2;
  return {
    east: (DEGREE * AXIS * Math.cos(lat * DEGREE)) / Math.sqrt(bent),
    north: (DEGREE * AXIS * (1 - ECCENTRICITY_2)) / bent ** 1.5,
  };
}

export function metresBetween([lon, lat], [otherLon, otherLat]) {
  const { east, north } = degreeAt((lat + otherLat) / 2);
  return Math.hypot((otherLon - lon) * east, (otherLat - lat) * north);
}

export function mix([lon, lat], [otherLon, otherLat], share) {
  return [lon + (otherLon - lon) * share, lat + (otherLat - lat) * share];
}

/** The place at a distance along a line, m from its start. */
export function placeAlong(line, distance) {
  let left = distance;
  for (let at = 1; at < line.length; at += 1) {
    const length = metresBetween(line[at - 1], line[at]);
    if (left <= length) return mix(line[at - 1], line[at], left / length);
    left -= length;
  }
  return line.at(-1);
}

export function lengthOf(line) {
  return line.slice(1).reduce((sum, place, at) => sum + metresBetween(line[at], place), 0);
}
