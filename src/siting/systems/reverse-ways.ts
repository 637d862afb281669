import type { Metres, Ratio } from '../../units/quantity.ts';
import { NO_WAY } from '../fields/governing-level.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { type Ways, waysFrom } from '../fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';

/** The ways from a tank to the pumps: level and length are the same in either direction, so one pass serves them all. */
export interface TankWays {
  readonly cell: number;
  readonly ways: readonly Ways[];
}

/** Head that a metre of delivery line takes while its pipe is not chosen. Common practice, no source. */
const FRICTION: Ratio = USUAL_ROUTE_SETTINGS.friction;

/** Ways between a tank and the cells of some pumps; a pass ends when it has come to all of them. */
export function waysToTank(ground: OpenGround, cell: number, pumps: readonly number[]): TankWays {
  const seed = { cell, level: ground.heights[cell] as number };
  const sag = USUAL_ROUTE_SETTINGS.deepest;
  const wanted = new Set(pumps);
  const untilAll = (): ((cell: number) => boolean) => {
    const left = new Set(wanted);
    return (at) => left.delete(at) && left.size === 0;
  };
  const ways = [
    waysFrom(ground, seed, { kind: 'shortest' }, sag, untilAll()),
    waysFrom(ground, seed, { kind: 'least-head', friction: FRICTION }, sag, untilAll()),
  ];
  return { cell, ways };
}

/** What a delivery line from a cell would ask of a pump there. */
export interface LineAsked {
  readonly way: Ways;
  /** Highest of ground on the way and outlet, m. */
  readonly level: Metres;
  readonly length: Metres;
  /** Head with friction above a level. */
  headAbove(valve: Metres): Metres;
}

/** The better of the ways between a pump's cell and the tank; null where none leads. */
export function lineAsked({ ways }: TankWays, pump: number, outlet: Metres): LineAsked | null {
  let best: LineAsked | null = null;
  for (const way of ways) {
    const length = way.length[pump] as number;
    if (length === NO_WAY) continue;
    const level = Math.max(outlet, way.level[pump] as number);
    const asked: LineAsked = { way, level, length, headAbove: (valve) => level - valve + FRICTION * length };
    if (best === null || asked.headAbove(0) < best.headAbove(0)) best = asked;
  }
  return best;
}
