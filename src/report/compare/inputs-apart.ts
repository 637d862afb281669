import { herdRow } from '../../handbook/livestock-needs.ts';
import type { Plan, YieldReading } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { measurementWords } from '../words/measurement-words.ts';
import { type ComparedRow, numberRow, wordsRow } from './compared-row.ts';
import { pumpApart } from './pump-apart.ts';

/** What was typed into two plans beside points and lines, row by row; `same` where it is alike. */
export function inputsApart(one: Plan, other: Plan, units: UnitSystem): ComparedRow[] {
  const words = (about: string, of: (plan: Plan) => string | null) => wordsRow(about, [of(one), of(other)]);
  return [
    words('Readings of the source', ({ yieldReadings }) =>
      joined(yieldReadings.map((each) => yieldWords(each, units))),
    ),
    ...numberRow('Share in a dry season', [one.dryShare, other.dryShare], 'share', units),
    ...numberRow('Left in the stream', [one.leftInStream, other.leftInStream], 'share', units),
    words('Herd', (plan) => joined(herdWords(plan, units))),
    ...pumpApart(one.pump, other.pump, units),
    words('Levels taken on site', (plan) =>
      joined(plan.measurements.map((taken) => measurementWords(taken, plan, units))),
    ),
    ...numberRow('Water temperature', [one.waterTemperature, other.waterTemperature], 'temperature', units),
    ...numberRow('Confidence asked for', [one.confidence, other.confidence], 'share', units),
    ...numberRow('Allowance of pipe', [one.materials.allowance, other.materials.allowance], 'share', units),
    words('Elevation files', ({ terrain }) => joined(terrain?.files ?? [])),
    words('Accuracy of the heights', ({ terrain }) => terrain?.accuracy ?? 'as inferred from the file'),
    words('Units shown', ({ units }) => (units === 'us' ? 'US' : 'metric')),
    ...listRows(one, other),
  ];
}

const joined = (parts: readonly string[]): string | null => (parts.length === 0 ? null : parts.join('; '));

function yieldWords(reading: YieldReading, units: UnitSystem): string {
  const flow = (value: number) => writeQuantity(value, 'flow', units);
  if (reading.kind === 'stated') return `${flow(reading.flow)} ±${flow(reading.plusMinus)}`;
  const times = reading.times.map((time) => time.toFixed(1)).join(', ');
  return `${writeQuantity(reading.volume, 'volume', units)} in ${times} s`;
}

function herdWords({ herd }: Plan, units: UnitSystem): readonly string[] {
  return herd.map((group) => {
    if (group.kind === 'row') return `${group.count} × ${herdRow(group.row)?.label ?? group.row}`;
    const need = writeQuantity(group.needPerDay, 'daily-volume', units);
    return `${group.count} × ${group.label} at ${need}`;
  });
}

/** What is looked up in the plan itself: long lists, and an address that may hold a key. */
const LISTS: readonly (readonly [string, (plan: Plan) => unknown])[] = [
  ['Months of the year', (plan) => plan.year],
  ['Prices', ({ materials }) => [materials.currency, materials.prices]],
  ['Map tiles', (plan) => plan.mapTiles],
  ['Constants of the heights', (plan) => plan.terrain?.constants ?? null],
  ['Pipes of your own', (plan) => plan.pipes.filter(({ kind }) => kind === 'own')],
];

function listRows(one: Plan, other: Plan): ComparedRow[] {
  return LISTS.flatMap(([about, of]) =>
    JSON.stringify(of(one)) === JSON.stringify(of(other)) ? [] : [wordsRow(about, ['as typed', 'otherwise'])],
  );
}
