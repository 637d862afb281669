import type { PointRole, RouteRole } from '../model/plan.ts';

/** Words of the trade that speak of a role; common practice, no source. */
const POINT_WORDS: Readonly<Record<PointRole, RegExp>> = {
  source: /\b(?:sources?|springs?|spring ?box|creek|stream|intake|seep)\b/i,
  standpipe: /\b(?:stand ?pipe|standing pipe)\b/i,
  pump: /\b(?:pumps?|rams?|hydram)\b/i,
  tank: /\b(?:tanks?|reservoirs?|cisterns?)\b/i,
  trough: /\b(?:troughs?|drinkers?|waterers?)\b/i,
};

const ROUTE_WORDS: Readonly<Record<RouteRole, RegExp>> = {
  supply: /\b(?:supply|feed)\b/i,
  drive: /\bdrive\b/i,
  delivery: /\b(?:delivery|deliver|rising main)\b/i,
  gravity: /\bgravity\b/i,
};

/** Longer than any type or name that a person would read. */
const LONGEST = 200;

/** The role a point's type states, else the one that its name speaks of; null for none or several. */
export function suggestPointRole(type: string, name: string): PointRole | null {
  return onlyRole(POINT_WORDS, type) ?? onlyRole(POINT_WORDS, name);
}

export function suggestRouteRole(type: string, name: string): RouteRole | null {
  return onlyRole(ROUTE_WORDS, type) ?? onlyRole(ROUTE_WORDS, name);
}

function onlyRole<Role extends string>(words: Readonly<Record<Role, RegExp>>, text: string): Role | null {
  const spoken = Object.keys(words).filter((role): role is Role => {
    return Object.entries<RegExp>(words).some(([key, word]) => key === role && word.test(text.slice(0, LONGEST)));
  });
  return spoken.length === 1 ? (spoken[0] ?? null) : null;
}
