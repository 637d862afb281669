import type { Metres } from '../../units/quantity.ts';
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
  const drawn: WayPlace[] = pulled.slice(0, 1);
  for (let first = 0; first < pulled.length - 1; first += BENDS_AT_A_TIME) {
    const part = pulled.slice(first, first + BENDS_AT_A_TIME + 1);
    const start = drawn.at(-1)?.carried ?? rule.start();
    const bent = fewerBends(field, { raw: between(raw, part), pulled: part, start }, rule, bendAsLine);
    drawn.push(...bent.slice(1));
  }
  return drawnStraight(field, drawn, rule);
}

/** Bends of a long way that are looked at together. */
const BENDS_AT_A_TIME = 24;

/** The places of a way from the first of a part of it to the last. */
function between(raw: readonly WayPlace[], part: readonly WayPlace[]): readonly WayPlace[] {
  const at = (which: WayPlace | undefined): number => raw.findIndex(({ place }) => place === which?.place);
  return raw.slice(at(part[0]), at(part.at(-1)) + 1);
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
