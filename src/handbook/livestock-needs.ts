import data from '../../data/livestock-needs.json' with { type: 'json' };
import { LITRE_M3 } from '../units/factor.ts';
import type { Celsius, CubicMetres } from '../units/quantity.ts';
import { readQuantity } from '../units/read-quantity.ts';
import { provenanceOf, type Sourced } from './provenance.ts';

/** What one animal drinks a day, m³: a published range, or one figure twice. */
export interface DailyNeed {
  readonly low: CubicMetres;
  readonly high: CubicMetres;
}

/** A need and when it holds: an air temperature, or a word such as `summer` or `year round`. */
export interface NeedStep extends DailyNeed {
  readonly condition: string;
  readonly airTemperature: Celsius | null;
}

/** The drinking water of one class of animal in one publication. */
export interface HerdRow extends Sourced {
  /** Stable name, such as `beef-cow-calf-pair-alberta`. */
  readonly id: string;
  readonly species: string;
  readonly label: string;
  /** Cold to warm; at least one. */
  readonly needs: readonly NeedStep[];
}

/** The weather a need is asked for. */
export interface Weather {
  readonly season: 'winter' | 'summer';
  /** For rows that go by temperature; null takes their coldest step in winter, their warmest in summer. */
  readonly airTemperature: Celsius | null;
}

const ROWS: readonly HerdRow[] = Object.entries(data.rows).map(([id, row]) => ({
  id,
  species: row.species,
  label: row.label,
  needs: Object.entries(row.needs).map(([condition, range]) => needStep(condition, range, row.heads)),
  source: sourceOf(row.source),
  provenance: provenanceOf(row.provenance),
}));
const BY_ID = new Map(ROWS.map((row) => [row.id, row]));

/** Every class of animal of the handbook. */
export function herdRows(): readonly HerdRow[] {
  return ROWS;
}

/** A class of animal by its id; null when the handbook has none of that name. */
export function herdRow(id: string): HerdRow | null {
  return BY_ID.get(id) ?? null;
}

/** What one animal of a row drinks a day in some weather: straight between temperatures, never beyond the printed ones. */
export function herdNeed(row: HerdRow, weather: Weather): DailyNeed {
  const bySeason = row.needs.find((step) => step.condition === weather.season);
  const last = row.needs.length - 1;
  if (bySeason) return bySeason;
  if (weather.airTemperature !== null) return atTemperature(row.needs, weather.airTemperature);
  return stepAt(row.needs, weather.season === 'winter' ? 0 : last);
}

/** The most that one animal of a row drinks a day in any weather it was printed for. */
export function herdPeak(row: HerdRow): DailyNeed {
  return row.needs.reduce((most, step) => (step.high > most.high ? step : most), stepAt(row.needs, 0));
}

function atTemperature(steps: readonly NeedStep[], temperature: Celsius): DailyNeed {
  const above = steps.findIndex((step) => step.airTemperature !== null && temperature <= step.airTemperature);
  if (above <= 0) return stepAt(steps, above === 0 || steps[0]?.airTemperature === null ? 0 : steps.length - 1);
  const [left, right] = [stepAt(steps, above - 1), stepAt(steps, above)];
  const span = (right.airTemperature ?? 0) - (left.airTemperature ?? 0);
  const share = (temperature - (left.airTemperature ?? 0)) / span;
  return { low: left.low + share * (right.low - left.low), high: left.high + share * (right.high - left.high) };
}

function stepAt(steps: readonly NeedStep[], index: number): NeedStep {
  const step = steps[index];
  if (step === undefined) throw new Error('found a herd row without needs, expected at least one');
  return step;
}

function needStep(condition: string, range: readonly number[], heads: number): NeedStep {
  const [low, high] = range;
  if (low === undefined || high === undefined)
    throw new Error(`found need ${condition} without a range, expected two figures`);
  const air = readQuantity(condition, 'temperature');
  const perHead = LITRE_M3 / heads;
  return { condition, airTemperature: air.ok ? air.value : null, low: low * perHead, high: high * perHead };
}

function sourceOf(key: string): string {
  const title = Object.entries(data.sources).find(([name]) => name === key)?.[1];
  if (title === undefined) throw new Error(`found source ${key} among the herd rows, expected one that is listed`);
  return title;
}

/** The warmest air that a row is printed for; null for a row that does not go by temperature. */
export function warmestOf({ needs }: HerdRow): Celsius | null {
  return needs.reduce<Celsius | null>((most, { airTemperature }) => airTemperature ?? most, null);
}

/** Words of a class by which rows of different publications speak of the same animals. */
const CLASSES = ['pregnant', 'lactating', 'dry', 'growing', 'finishing', 'bull', 'calf', 'laying', 'broilers'] as const;

/** Rows of the same class of animal that are printed for warmer air, the warmest first and of those the thirstiest. */
export function warmerRows(row: HerdRow): readonly HerdRow[] {
  const warmest = warmestOf(row);
  if (warmest === null) return [];
  const alike = (other: HerdRow) =>
    other.species === row.species && CLASSES.some((word) => row.label.includes(word) && other.label.includes(word));
  const beyond = (other: HerdRow) => (warmestOf(other) ?? warmest) > warmest;
  return ROWS.filter((other) => alike(other) && beyond(other)).toSorted(
    (a, b) => (warmestOf(b) ?? warmest) - (warmestOf(a) ?? warmest) || herdPeak(b).high - herdPeak(a).high,
  );
}

/** Two neighbouring steps of a row between which the printed need falls although the air gets warmer; null where it never does. */
export function fallsWithHeat({ needs }: HerdRow): { readonly from: NeedStep; readonly to: NeedStep } | null {
  for (const [i, to] of needs.entries()) {
    const from = needs[i - 1];
    if (from && from.airTemperature !== null && to.airTemperature !== null && to.high < from.high) return { from, to };
  }
  return null;
}
