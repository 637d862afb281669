const ALPHABET = 26;
const FIRST = 'a'.codePointAt(0) ?? 0;

/** The letter of a route on the map by its place in the plan: a, b … z, aa, ab … */
export function letterOf(index: number): string {
  const last = String.fromCodePoint(FIRST + (index % ALPHABET));
  return index < ALPHABET ? last : letterOf(Math.floor(index / ALPHABET) - 1) + last;
}
