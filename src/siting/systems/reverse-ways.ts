import type { Metres, Ratio } from '../../units/quantity.ts';
import { NO_WAY } from '../fields/governing-level.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { type Ways, waysFrom } from '../fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';

/** The ways from a tank to every cell: level and length are the same in either direction, so one pass serves every pump. */
export interface TankWays {
  readonly cell: number;
  readonly ways: readonly Ways[];
}

/** Head that a metre of delivery line takes while its pipe is not chosen. Common practice, no source. */
const FRICTION: Ratio = USUAL_ROUTE_SETTINGS.friction;

export function waysToTank(ground: OpenGround, cell: number): TankWays {
  const seed = { cell, level: ground.heights[cell] as number };
  const sag = USUAL_ROUTE_SETTINGS.deepest;
  const ways = [
    waysFrom(ground, seed, { kind: 'shortest' }, sag),
    waysFrom(ground, seed, { kind: 'least-head', friction: FRICTION }, sag),
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
