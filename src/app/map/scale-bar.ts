import type { Map as MapLibreMap } from 'maplibre-gl';
import { tileGround } from '../../relief/mercator.ts';
import type { Metres } from '../../units/quantity.ts';
import type { MapViewProps } from './map-view-props.ts';

export interface ScaleReading {
  /** Length of the bar, CSS pixels, and what it says. */
  readonly pixels: number;
  readonly label: string;
  /** What the contours say, such as `Contours every 5 m`; null without contours. */
  readonly contours: string | null;
}

export function sameScale(before: ScaleReading | null, after: ScaleReading): boolean {
  return before?.pixels === after.pixels && before.label === after.label && before.contours === after.contours;
}

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
  { look, terrain }: MapViewProps,
  intervals: ReadonlyMap<number, number>,
): ScaleReading {
  const metresPerPixel = tileGround(map.getZoom(), map.getCenter().lat).east / WORLD;
  const bar = roundLength(metresPerPixel * LONGEST, SCALE_UNITS[look.units]);
  const interval = terrain && look.contours ? shownInterval(map.getZoom(), intervals) : null;
  const unit = look.units === 'us' ? 'ft' : 'm';
  return {
    pixels: Math.round(bar.metres / metresPerPixel),
    label: bar.label,
    contours: interval === null ? null : `Contours every ${interval} ${unit}`,
  };
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
function shownInterval(zoom: number, intervals: ReadonlyMap<number, number>): number | null {
  for (let level = Math.floor(zoom); level >= 0; level -= 1) {
    const interval = intervals.get(level);
    if (interval !== undefined) return interval;
  }
  return null;
}
