import { crsFromTable } from '../../geodesy/crs-table.ts';
import type { Position } from '../../geodesy/position.ts';
import { type Projection, projectionOf } from '../../geodesy/projection.ts';
import type { Problem } from '../../units/outcome.ts';

/** Coordinates of a file's south-west and north-east corner. */
export type Corners = readonly [number, number, number, number];

/** What becomes of a file's coordinates if they are taken for those of a CRS. */
export type CrsCandidate =
  | { readonly kind: 'unknown'; readonly problem: Problem }
  | { readonly kind: 'nowhere'; readonly name: string }
  | {
      readonly kind: 'place';
      readonly name: string;
      readonly middle: Position;
      /** Whether that lies where the registry means the CRS to be used; null where the registry does not say. */
      readonly inArea: boolean | null;
    };

/** Where the middle of a file would lie if its coordinates were of the CRS with this EPSG code. */
export async function crsCandidate(code: number, corners: Corners): Promise<CrsCandidate> {
  const projection = await projectionOf({ kind: 'epsg', code });
  if (!projection.ok) {
    const [problem = { code: 'crs-unknown', path: 'crs', found: `EPSG:${code}`, expected: 'a known code' }] =
      projection.problems;
    return { kind: 'unknown', problem };
  }
  const { name } = projection.value;
  // Codes that follow a rule are computed without the table, which knows their area.
  const area = projection.value.area ?? (await crsFromTable(code))?.area ?? null;
  const middle = placeOf(projection.value, (corners[0] + corners[2]) / 2, (corners[1] + corners[3]) / 2);
  if (middle === null) return { kind: 'nowhere', name };
  return { kind: 'place', name, middle, inArea: area === null ? null : isInside(middle, area) };
}

/** Degrees and metres that a place may miss itself by after going there and back. */
const DEGREES_MISSED = 1e-6;
const METRES_MISSED = 1;

/** Far beyond its area a projection leads to places that do not lead back; they are none. */
function placeOf(projection: Projection, x: number, y: number): Position | null {
  const there = projection.inverse({ x, y });
  if (there === null || Math.abs(there.lat) > 90 || Math.abs(there.lon) > 180) return null;
  if (projection.geographic && (Math.abs(y) > 90 || Math.abs(x) > 360)) return null;
  const back = projection.forward(there);
  const missed = projection.geographic ? DEGREES_MISSED : METRES_MISSED / projection.metresPerUnit;
  const turn = projection.geographic ? Math.round((x - (back?.x ?? 0)) / 360) * 360 : 0;
  return back !== null && Math.hypot(back.x + turn - x, back.y - y) <= missed ? there : null;
}

function isInside({ lon, lat }: Position, area: NonNullable<Projection['area']>): boolean {
  const acrossAntimeridian = area.east < area.west;
  const inLongitude = acrossAntimeridian ? lon >= area.west || lon <= area.east : lon >= area.west && lon <= area.east;
  return inLongitude && lat >= area.south && lat <= area.north;
}
