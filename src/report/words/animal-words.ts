import { type HerdRow, herdRow, herdRows } from '../../handbook/livestock-needs.ts';
import type { HerdGroup } from '../../plan/model/plan.ts';
import { LITRE_M3, POUND_KG, US_GALLON_M3 } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { readQuantity } from '../../units/read-quantity.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** A number or a range before a unit of weight or milk, as labels of the handbook print them. */
const PRINTED = /(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?([ -])(kg|lb|L)\b/g;

/** Weights and milk of a label in the units of a reader, to what they are known to: ten pounds or ten kilograms, whole ones when small. */
function inUnits(label: string, units: UnitSystem): string {
  return label.replace(PRINTED, (whole, from: string, to: string | undefined, gap: string, unit: string) => {
    const factor = unit === 'kg' ? 1 / POUND_KG : unit === 'lb' ? POUND_KG : LITRE_M3 / US_GALLON_M3;
    if ((unit === 'lb') === (units === 'us')) return whole;
    const rounded = (text: string) => {
      const value = Number(text) * factor;
      return String(value >= 100 ? Math.round(value / 10) * 10 : Math.round(value));
    };
    const other = unit === 'kg' ? 'lb' : unit === 'lb' ? 'kg' : 'gal';
    return `${rounded(from)}${to === undefined ? '' : `-${rounded(to)}`}${gap}${other}`;
  });
}

/** What a class of animal is called, in the units of a reader. */
export function animalLabel({ species, label }: HerdRow, units: UnitSystem): string {
  const words = inUnits(label.replace('milk/d', 'milk a day').replace('/d', ' a day'), units);
  return words.toLowerCase().includes(species) ? words : `${species}, ${words}`;
}

/** What one animal of it drinks a day, over all weathers it was printed for. */
export function animalNeed({ needs }: HerdRow, units: UnitSystem): string {
  const low = Math.min(...needs.map((each) => each.low));
  const high = Math.max(...needs.map((each) => each.high));
  return writeRange(low, high, 'daily-volume', units);
}

/** The weather that a need was printed for, in the units of a reader: 70 F, 15 C, or a word. */
export function conditionWords(condition: string, units: UnitSystem): string {
  const air = readQuantity(condition, 'temperature');
  return air.ok ? writeQuantity(Math.round(air.value), 'temperature', units) : condition;
}

/** What a group of the herd is called. */
export function groupLabel(group: HerdGroup, units: UnitSystem): string {
  if (group.kind === 'own') return group.label;
  const row = herdRow(group.row);
  return row === null ? group.row : animalLabel(row, units);
}

/** Publications whose figures come first, by where a reader's units are at home. */
const FIRST: Readonly<Record<UnitSystem, RegExp>> = {
  metric: /Livestock watering, Agriculture and Agri-Food Canada|OMAFRA|New Zealand/,
  us: /Livestock watering, Agriculture and Agri-Food Canada|North Dakota|National Research Council|NRCS|Kansas/,
};

export interface AnimalChoice {
  readonly row: string;
  readonly words: string;
}

export interface AnimalGroup {
  readonly species: string;
  readonly choices: readonly AnimalChoice[];
}

/**
 * The animals of the handbook by species, each with what it drinks a day. A class that several publications print is there once, by
 * the one that suits the reader best; `sought` leaves those that hold every word of it.
 */
export function animalChoices(units: UnitSystem, sought = ''): readonly AnimalGroup[] {
  const wanted = sought.toLowerCase().split(/\s+/);
  const rank = (row: HerdRow) => (FIRST[units].test(row.source) ? 0 : 1) + (row.provenance === 'found' ? 0 : 2);
  const groups = new Map<string, Map<string, HerdRow>>();
  for (const row of herdRows().toSorted((one, other) => rank(one) - rank(other))) {
    const label = animalLabel(row, units);
    if (!wanted.every((word) => `${row.species} ${label}`.toLowerCase().includes(word))) continue;
    const group = groups.get(row.species) ?? new Map<string, HerdRow>();
    if (!group.has(label)) group.set(label, row);
    groups.set(row.species, group);
  }
  return [...groups].map(([species, rows]) => ({
    species,
    choices: [...rows]
      .map(([label, row]) => ({ row: row.id, words: `${label}: ${animalNeed(row, units)}` }))
      .toSorted((one, other) => one.words.localeCompare(other.words, 'en', { numeric: true })),
  }));
}
