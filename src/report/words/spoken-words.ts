import type { TankResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { spelled } from './spelling.ts';

/** Verdicts as they are said aloud. */
const SAID: Readonly<Record<Verdict, string>> = {
  holds: 'enough arrives',
  measure: 'to be measured',
  fails: 'too little arrives',
};

/** Signs of units as they are said. */
const UNITS: readonly (readonly [sign: RegExp, said: string])[] = [
  [/L\/day$/, 'litres a day'],
  [/m³\/day$/, 'cubic metres a day'],
  [/gal\/day$/, 'gallons a day'],
];

/** A daily volume as a voice says it: figures in one piece, the unit as a word. */
function saidVolume(value: number, units: UnitSystem): { readonly figures: string; readonly unit: string } {
  const written = writeQuantity(value, 'daily-volume', units).replace(/(\d)\u202f(?=\d)/g, '$1');
  const [sign, said] = UNITS.find(([each]) => each.test(written)) ?? [/\D+$/, ''];
  return { figures: written.replace(sign, '').trim(), unit: spelled(said, units) };
}

/** What reaches a tank, as a sentence for the ear. */
export function tankSentence(name: string, { verdict, line }: TankResult, units: UnitSystem): string {
  if (verdict === null) return `${name}: no delivery line yet.`;
  const day = line?.deliveryPerDay ?? null;
  const head = `${name}, ${SAID[verdict]}`;
  if (day === null) return `${head}.`;
  const { figures, unit } = saidVolume(day.likely, units);
  const [low, high] = [day.low, day.high].map((value) => saidVolume(value, units));
  const range = low?.figures === high?.figures ? '' : `, between ${said(low, unit)} and ${said(high, unit)}`;
  return `${head}: ${figures} ${unit}${range}.`;
}

/** Figures with their unit where that is another than the one that was said. */
const said = (part: ReturnType<typeof saidVolume> | undefined, unit: string): string =>
  part === undefined ? '' : part.unit === unit ? part.figures : `${part.figures} ${part.unit}`;

/** What a bar shows, as its name. */
export function barName(estimate: Estimate, need: number | null, units: UnitSystem): string {
  const [low, high] = [estimate.low, estimate.high].map((value) => saidVolume(value, units));
  const needed = need === null ? null : saidVolume(need, units);
  const of = needed === null ? '' : `; needed are ${needed.figures} ${needed.unit}`;
  return `Bar from ${low?.figures} ${low?.unit} to ${high?.figures} ${high?.unit}${of}`;
}
