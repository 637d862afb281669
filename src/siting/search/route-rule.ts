import type { Metres, Ratio } from '../../units/quantity.ts';

/** What a way brings along from its start: two numbers, of both of which less is better. The rule says what they mean. */
export interface Carried {
  first: number;
  second: number;
}

/** A short piece of a way, straight in plan and in height. */
export interface Step {
  run: Metres;
  /** Ground at its two ends. */
  from: Metres;
  to: Metres;
}

/** What is left from a place to the end of the way. */
export interface Left {
  /** Level distance as the crow flies. */
  run: Metres;
  /** Straight distance, with the difference of the heights. */
  straight: Metres;
}

/**
 * What a way may do and what it costs.
 *
 * Laws that the search relies on: `walk` keeps the order (carrying less never ends up with more), neither number ever
 * falls, and `bound` never falls along a way and is the way's worth at its end.
 */
export interface RouteRule {
  start(): Carried;
  /** Takes one step in place; false where it must not be taken. */
  walk(carried: Carried, step: Step): boolean;
  /** The least worth of any way that goes on from here; Infinity when none can. */
  bound(carried: Carried, left: Left): number;
  /** The least by which `first` grows per metre of level run. */
  readonly firstPerMetre: Ratio;
  /** What of `second` makes no difference between two ways to a place. */
  readonly slack: number;
  /** The most that `second` may be before a step if it is to be at most `after` behind it. */
  before(after: number, step: Step): number;
  /** The most that `second` may be at the end of a way, given what a found way carries there. */
  atEnd(found: Carried): number;
}
