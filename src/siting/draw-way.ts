import type { Metres } from '../units/quantity.ts';
import { fewerBends } from './fewer-bends.ts';
import type { FieldPlace, HeightField } from './height-field.ts';
import { walkBetween } from './leg.ts';
import { pullStraight, type WayPlace } from './pull-straight.ts';
import type { RouteRule } from './route-rule.ts';

/** Passes of drawing straight; a vertex of one pass may be passed over by the next. */
const MOST_PASSES = 4;

/** Draws the stairs of a search as a person would lay the line: straight wherever it may be, with few bends. */
export function drawWay(
  field: HeightField,
  raw: readonly WayPlace[],
  rule: RouteRule,
  bendAsLine: Metres,
): readonly WayPlace[] {
  const pulled = drawnStraight(field, raw, rule);
  return drawnStraight(field, fewerBends(field, { raw, pulled }, rule, bendAsLine), rule);
}

function drawnStraight(field: HeightField, raw: readonly WayPlace[], rule: RouteRule): readonly WayPlace[] {
  let way = raw;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const next = pullStraight(field, way, rule);
    if (next.length === way.length) return next;
    way = next;
  }
  return way;
}

/** A way straight from place to place, with what it carries under a rule. */
export function wayThrough(field: HeightField, places: readonly FieldPlace[], rule: RouteRule): WayPlace[] {
  const carried = rule.start();
  return places.map((place, k) => {
    const before = places[k - 1];
    if (before) walkBetween(field, { from: before, to: place }, rule, carried);
    return { place, carried: { ...carried } };
  });
}
