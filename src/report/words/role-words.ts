import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { PointRole, RouteRole, TankPoint } from '../../plan/model/plan.ts';

/** How a point or a route is called, and what it is in plain words. */
export interface RoleWords {
  readonly name: string;
  readonly plain: string;
}

export const POINT_WORDS: Readonly<Record<PointRole, RoleWords>> = {
  source: { name: 'Source', plain: 'Where the water comes from: a spring, a spring box or a stream.' },
  standpipe: {
    name: 'Standpipe',
    plain: 'An open upright pipe before the pump. It lets the drive pipe be short enough to beat.',
  },
  pump: { name: 'Pump', plain: 'The ram. It must stand lower than the source; the lower, the more it lifts.' },
  tank: { name: 'Tank', plain: 'Where the pumped water goes. Place as many as you are thinking of and compare them.' },
  trough: { name: 'Trough', plain: 'Where the animals drink, fed from a tank or from the source by gravity.' },
};

export const ROUTE_WORDS: Readonly<Record<RouteRole, RoleWords>> = {
  supply: { name: 'Supply line', plain: 'From the source to the standpipe.' },
  drive: { name: 'Drive pipe', plain: 'From the standpipe (or the source) to the pump: rigid, straight and strong.' },
  delivery: { name: 'Delivery line', plain: 'From the pump up to a tank.' },
  gravity: { name: 'Gravity line', plain: 'From a tank (or the source) down to a trough.' },
};

/** What stands at the level that counts for the water at a point. */
export const LEVEL_WORDS: Readonly<Record<PointRole, string>> = {
  source: 'water',
  standpipe: 'inlet',
  pump: 'waste valve',
  tank: 'inlet',
  trough: 'float valve',
};

/** The three answers of a comparison in a word or two. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  holds: 'OK',
  measure: 'check on site',
  fails: 'fails',
};

/** What was decided about a place for a tank. */
export const CHOICE_WORDS: Readonly<Record<TankPoint['standing'], string>> = {
  kept: 'chosen',
  candidate: 'maybe',
  'set-aside': 'ruled out',
};
