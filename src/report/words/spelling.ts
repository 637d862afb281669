import type { UnitSystem } from '../../units/kind.ts';

/** Words that Americans spell otherwise; the first of a pair is British. Endings are told with the words that have them. */
const AMERICAN: readonly (readonly [british: string, american: string])[] = [
  ['metre', 'meter'],
  ['metres', 'meters'],
  ['centimetre', 'centimeter'],
  ['centimetres', 'centimeters'],
  ['decimetre', 'decimeter'],
  ['decimetres', 'decimeters'],
  ['millimetre', 'millimeter'],
  ['millimetres', 'millimeters'],
  ['litre', 'liter'],
  ['litres', 'liters'],
  ['colour', 'color'],
  ['colours', 'colors'],
  ['coloured', 'colored'],
  ['grey', 'gray'],
  ['mould', 'mold'],
  ['moulded', 'molded'],
  ['neighbour', 'neighbor'],
  ['neighbours', 'neighbors'],
  ['neighbouring', 'neighboring'],
  ['galvanised', 'galvanized'],
  ['centre', 'center'],
  ['centres', 'centers'],
  ['levelled', 'leveled'],
  ['levelling', 'leveling'],
  ['labelled', 'labeled'],
  ['travelled', 'traveled'],
  ['travelling', 'traveling'],
  ['plough', 'plow'],
  ['programme', 'program'],
  ['behaviour', 'behavior'],
  ['favour', 'favor'],
  ['recognised', 'recognized'],
  ['organised', 'organized'],
];

const WORDS = new Map(AMERICAN);
const PATTERN = new RegExp(`\\b(?:${AMERICAN.map(([british]) => british).join('|')})\\b`, 'gi');

/**
 * A text as those write who read a system of units: British with metric ones, American with US ones, and there no space before a
 * percent sign. Texts of the user's
 * own (names, notes, files) are left as they were typed.
 */
export function spelled(text: string, units: UnitSystem, own: readonly string[] = []): string {
  if (units === 'metric') return text;
  const theirs = own.filter((each) => each !== '' && text.includes(each));
  const [first, ...others] = theirs;
  if (first !== undefined) {
    return text
      .split(first)
      .map((part) => spelled(part, units, others))
      .join(first);
  }
  return text.replace(/(\d)[\u202f\u00a0 ]%/g, '$1%').replace(PATTERN, (word) => {
    const american = WORDS.get(word.toLowerCase()) ?? word;
    return word.charAt(0) === word.charAt(0).toLowerCase()
      ? american
      : american.charAt(0).toUpperCase() + american.slice(1);
  });
}
