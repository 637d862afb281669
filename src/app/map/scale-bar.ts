import type { Map as MapLibreMap } from 'maplibre-gl';
import { tileGround } from '../../relief/levels/mercator.ts';
import type { Metres } from '../../units/quantity.ts';
import type { ContourTile } from '../client/tile-service.ts';
import type { MapLook, MapViewProps } from '../state/map-view-props.ts';

export interface ScaleReading {
  /** Length of the bar, CSS pixels, and what it says. */
  readonly pixels: number;
  readonly label: string;
  /** What the contours say, such as `Contours every 5 m`; null without contours. */
  readonly contours: string | null;
  /** Why something that is open cannot be seen from this far; null when all of it can. */
  readonly unseen: string | null;
}

export function sameScale(before: ScaleReading | null, after: ScaleReading): boolean {
  if (before === null) return false;
  return (['pixels', 'label', 'contours', 'unseen'] as const).every((part) => before[part] === after[part]);
}

type Contours = Omit<ContourTile, 'data'>;

interface ScaleUnit {
  readonly metres: Metres;
  readonly name: string;
}

const LONGEST = 120;
const WORLD = 512;
export const SCALE_UNITS: Readonly<Record<'metric' | 'us', readonly ScaleUnit[]>> = {
  metric: [
    { metres: 1000, name: 'km' },
    { metres: 1, name: 'm' },
  ],
  us: [
    { metres: 1609.344, name: 'mi' },
    { metres: 0.3048, name: 'ft' },
  ],
};
const ROUND = [5, 2, 1];

/** The longest round length that fits the bar, in shown units, and the step between the contours on screen. */
export function scaleReading(
  map: MapLibreMap,
  { look, terrain, picture }: MapViewProps,
  known: ReadonlyMap<number, Contours>,
): ScaleReading {
  const metresPerPixel = tileGround(map.getZoom(), map.getCenter().lat).east / WORLD;
  const bar = roundLength(metresPerPixel * LONGEST, SCALE_UNITS[look.units]);
  const shown = terrain ? shownContours(map.getZoom(), known) : null;
  return {
    pixels: Math.round(bar.metres / metresPerPixel),
    label: bar.label,
    contours: contourWords(shown, look),
    unseen: unseenWords({
      terrain: shown?.tooFar === 'all',
      picture: picture?.farthest != null && look.picture > 0 && metresPerPixel >= picture.farthest,
    }),
  };
}

function contourWords(shown: Contours | null, { contours, units }: MapLook): string | null {
  if (!shown || !contours || shown.tooFar === 'all') return null;
  if (shown.tooFar === 'contours') return 'Contours from nearer';
  return `Contours every ${shown.interval} ${units === 'us' ? 'ft' : 'm'}`;
}

/** What is too large and without coarser copies is not read whole for a view from afar; that is said instead. */
export function unseenWords(unseen: { readonly terrain: boolean; readonly picture: boolean }): string | null {
  if (!unseen.terrain && !unseen.picture) return null;
  const what = unseen.terrain ? (unseen.picture ? 'elevation and picture' : 'elevation') : 'picture';
  return `Zoom in to see the ${what}: too large to draw from this far without overviews in the file.`;
}

export function roundLength(
  longest: Metres,
  units: readonly ScaleUnit[],
): { readonly metres: Metres; readonly label: string } {
  const unit = units.find(({ metres }) => metres <= longest) ?? units[units.length - 1] ?? { metres: 1, name: 'm' };
  const most = longest / unit.metres;
  const power = 10 ** Math.floor(Math.log10(most));
  const count = (ROUND.find((digit) => digit * power <= most) ?? 1) * power;
  return { metres: count * unit.metres, label: `${Number(count.toPrecision(1))} ${unit.name}` };
}

/** Tiles exist at whole zooms, and at none beyond the deepest that was asked for. */
function shownContours(zoom: number, known: ReadonlyMap<number, Contours>): Contours | null {
  for (let level = Math.floor(zoom); level >= 0; level -= 1) {
    const contours = known.get(level);
    if (contours !== undefined) return contours;
  }
  return null;
}
