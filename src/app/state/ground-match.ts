import { computed, signal } from '@preact/signals';
import { distanceBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import type { OpenedPicture } from '../client/picture-client.ts';
import { openedFrom } from './address-state.ts';
import { plan, terrain } from './store.ts';

/** A box in degrees; longitudes run on across the antimeridian with the first position. */
interface Box {
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

function boxOf(places: readonly Position[]): Box | null {
  const [first] = places;
  if (first === undefined) return null;
  const lons = places.map(({ lon }) => first.lon + turned(lon - first.lon));
  const lats = places.map(({ lat }) => lat);
  return { west: Math.min(...lons), east: Math.max(...lons), south: Math.min(...lats), north: Math.max(...lats) };
}

/** A difference of longitudes within half a turn. */
const turned = (degrees: number): number => degrees - 360 * Math.round(degrees / 360);

/** How far a place lies from a box; 0 inside. */
function distanceTo({ west, east, south, north }: Box, { lon, lat }: Position): Metres {
  const middle = (west + east) / 2;
  const x = middle + turned(lon - middle);
  const near = { lon: turned(Math.min(east, Math.max(west, x))), lat: Math.min(north, Math.max(south, lat)) };
  return x >= west && x <= east && lat >= south && lat <= north ? 0 : distanceBetween(near, { lon, lat });
}

/** How far two outlines lie apart; 0 where their boxes touch, null where one of them has no place. */
export function apart(one: readonly Position[], other: readonly Position[]): Metres | null {
  const box = boxOf(one);
  const second = boxOf(other);
  if (box === null || second === null) return null;
  const corners = [second.west, second.east].flatMap((lon) =>
    [second.south, second.north].map((lat) => ({ lon, lat })),
  );
  const nearest = Math.min(...corners.map((corner) => distanceTo(box, corner)));
  const middle = { lon: (box.west + box.east) / 2, lat: (box.south + box.north) / 2 };
  return Math.min(nearest, distanceTo(second, middle));
}

/** How far the plan lies from the ground that is open; null where all or some of it lies on it, or there is nothing to compare. */
export const planElsewhere = computed<Metres | null>(() => {
  const outline = terrain.value?.about.outline;
  const places = plan.value.points.map(({ position }) => position);
  const box = outline === undefined ? null : boxOf(outline);
  if (box === null || places.length === 0) return null;
  const least = Math.min(...places.map((place) => distanceTo(box, place)));
  return least > 0 ? least : null;
});

/** The files that the plan was made on, where others are open now; null where they are the same. */
export const otherGround = computed<readonly string[] | null>(() => {
  const known = plan.value.terrain?.files;
  if (terrain.value === null || known === undefined) return null;
  return known.join('\n') === openedFrom.value.join('\n') ? null : known;
});

/** A picture that lies beside the ground, held back until the user says what is to become of it. */
export const strayPicture = signal<{
  readonly opened: OpenedPicture;
  readonly off: Metres;
  readonly files: readonly File[];
} | null>(null);

/** What was hidden of the notices about ground and plan, by a key of what they said. */
export const hiddenMatch = signal<string | null>(null);
