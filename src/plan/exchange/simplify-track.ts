import { lineString, simplify } from '@turf/turf';
import { offsetBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';

/** Vertices simplified at a time: the work grows with the square of them in the worst track. */
const STRETCH = 1000;

/**
 * A track with the vertices left out that a straight line passes within the tolerance, measured in metres on a plane at each
 * stretch of a thousand vertices; ends of stretches stay. Every vertex kept is one of the file.
 *
 * Source: D. H. Douglas and T. K. Peucker, Algorithms for the reduction of the number of points required to represent a
 * digitized line or its caricature, Cartographica 10(2), 1973, pages 112-122.
 */
export function simplifyTrack(track: readonly Position[], tolerance: Metres): readonly Position[] {
  if (tolerance <= 0 || track.length < 3) return track;
  const kept: Position[] = track.slice(0, 1);
  for (let start = 0; start < track.length - 1; start += STRETCH) {
    kept.push(...simplifyStretch(track.slice(start, start + STRETCH + 1), tolerance).slice(1));
  }
  return kept;
}

function simplifyStretch(stretch: readonly Position[], tolerance: Metres): readonly Position[] {
  const [first] = stretch;
  if (first === undefined || stretch.length < 3) return stretch;
  const plane = stretch.map((position) => {
    const { east, north } = offsetBetween(first, position);
    return [east, north];
  });
  const { geometry } = simplify(lineString(plane), { tolerance, highQuality: true, mutate: true });
  return verticesAt(stretch, plane, geometry.coordinates);
}

/** The vertices whose places on the plane were kept, in order, with both ends. */
function verticesAt(
  stretch: readonly Position[],
  plane: readonly (readonly number[])[],
  kept: readonly (readonly number[])[],
): readonly Position[] {
  let next = 1;
  const last = stretch.length - 1;
  return stretch.filter((_, index) => {
    if (index === 0 || index === last) return true;
    const here = plane[index];
    const wanted = kept[next];
    if (here === undefined || wanted === undefined || here[0] !== wanted[0] || here[1] !== wanted[1]) return false;
    next += 1;
    return true;
  });
}
