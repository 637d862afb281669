import type { Metres } from '../../units/quantity.ts';
import { cellSides, type OpenGround } from '../fields/open-ground.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';
import type { PumpPlace } from '../places/pump-places.ts';
import { type LineAsked, lineAsked, type TankWays } from './reverse-ways.ts';

/** A place with the line that it asks for to its best tank. */
export interface RankedPlace {
  readonly place: PumpPlace;
  readonly tank: number;
  readonly line: LineAsked;
  /** Delivery as a share of what the pump is given, with an efficiency of 1: fall over head. */
  readonly gain: number;
  /** Metres of pipe, steel and digging at their weight. */
  readonly pipe: Metres;
}

export interface TankAim {
  readonly ways: TankWays;
  readonly outlet: Metres;
}

/** How steel and trench weigh against plastic pipe, a metre for a metre. Common practice, no source. */
const DRIVE = 2;
const TRENCH = 3;

/** Every place with its best tank. */
export function rankPlaces(
  places: readonly PumpPlace[],
  ground: OpenGround,
  tanks: readonly TankAim[],
  wasteValveHeight: Metres,
): RankedPlace[] {
  return places.flatMap((place) => {
    const valve = (ground.heights[place.pump] as number) + wasteValveHeight;
    const ranked = tanks.flatMap(({ ways, outlet }, tank): RankedPlace[] => {
      const line = lineAsked(ways, place.pump, outlet);
      if (!line) return [];
      const gain = place.fall / Math.max(1, line.headAbove(valve));
      const pipe = line.length + place.supply + DRIVE * place.drive.length + TRENCH * place.drive.digging;
      return [{ place, tank, line, gain, pipe }];
    });
    const best = ranked.toSorted((a, b) => worth(b) - worth(a))[0];
    return best ? [best] : [];
  });
}

/** Water for what it takes: everything else in a system weighs as much as so many metres of pipe. */
const worth = ({ gain, pipe }: RankedPlace): number => gain / (USUAL_ROUTE_SETTINGS.restAsLine + pipe);

/**
 * A few places apart from each other: the one with most water, the one with least pipe, then by water for what it takes. Those
 * that surely have the fall, and need no trench, come first.
 */
export function choosePlaces(
  ranked: readonly RankedPlace[],
  ground: OpenGround,
  { most, apart, confidence }: { readonly most: number; readonly apart: Metres; readonly confidence: number },
): RankedPlace[] {
  const sure = ({ place }: RankedPlace): number =>
    (place.chance >= confidence ? 1 : 0) + (place.drive.digging > 0 ? 0 : 0.5);
  const by = (of: (r: RankedPlace) => number) => ranked.toSorted((a, b) => sure(b) - sure(a) || of(b) - of(a));
  const wanted = [...by((r) => r.gain).slice(0, 1), ...by((r) => -r.pipe).slice(0, 1), ...by(worth)];
  const chosen: RankedPlace[] = [];
  for (const each of wanted) {
    if (chosen.length >= most) break;
    if (chosen.every((other) => distance(ground, other.place.pump, each.place.pump) >= apart)) chosen.push(each);
  }
  return chosen;
}

function distance(ground: OpenGround, a: number, b: number): Metres {
  const { width, height } = cellSides(ground);
  const { columns } = ground;
  return Math.hypot(
    ((a % columns) - (b % columns)) * width,
    (Math.floor(a / columns) - Math.floor(b / columns)) * height,
  );
}
