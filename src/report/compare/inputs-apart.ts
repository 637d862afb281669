import { runsOf } from '../../evaluation/model/measured-runs.ts';
import type { Plan, PumpChoice, YieldReading } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { groupLabel } from '../words/animal-words.ts';
import { measurementWords } from '../words/measure-words.ts';
import { efficiencyWords, runWords } from '../words/pump-size-words.ts';
import { type ComparedRow, numberRow, wordsRow } from './compared-row.ts';

/** Figures of a pump by the name that the plan gives them. */
const FIGURES: Readonly<Record<string, { readonly words: string; readonly kind: QuantityKind }>> = {
  count: { words: 'side by side', kind: 'count' },
  driveBore: { words: 'bore of the drive pipe', kind: 'bore' },
  intakeLeast: { words: 'takes at least', kind: 'flow' },
  intakeMost: { words: 'takes at most', kind: 'flow' },
  intakeSet: { words: 'set to take', kind: 'flow' },
  leastDeliveryHead: { words: 'least delivery head', kind: 'height' },
  wasteValveLoss: { words: 'loss of the waste valve', kind: 'ratio' },
  checkValveLoss: { words: 'loss of the check valve', kind: 'ratio' },
  valveWeightHead: { words: 'head that holds the waste valve open', kind: 'height' },
  valveStroke: { words: 'stroke of the waste valve', kind: 'bore' },
  checkLag: { words: 'lag of the check valve', kind: 'duration' },
  airChamber: { words: 'air chamber', kind: 'volume' },
};

/** The pumps of two plans, figure by figure; `same` where they are alike. */
function pumpApart(one: PumpChoice | null, other: PumpChoice | null, units: UnitSystem): ComparedRow[] {
  if (one === null && other === null) return [];
  const [first, second] = [one, other].map((pump) => new Map<string, unknown>(Object.entries(pump ?? {})));
  const figure = (of: ReadonlyMap<string, unknown> | undefined, key: string) => {
    const value = of?.get(key);
    return typeof value === 'number' ? value : null;
  };
  return [
    wordsRow('Pump', [nameOf(one), nameOf(other)]),
    ...Object.entries(FIGURES).flatMap(([key, { words, kind }]) =>
      numberRow(`Pump: ${words}`, [figure(first, key), figure(second, key)], kind, units),
    ),
    wordsRow('Pump: efficiency', [efficiencyOf(one, units), efficiencyOf(other, units)]),
    wordsRow('Pump: measured run', [runOf(one, units), runOf(other, units)]),
  ];
}

const KINDS = { sheet: 'by its maker’s sheet', ram: 'by its dimensions' } as const;

const nameOf = (pump: PumpChoice | null) => (pump === null ? null : `${pump.label}, ${KINDS[pump.kind]}`);

function efficiencyOf(pump: PumpChoice | null, units: UnitSystem): string | null {
  if (pump?.kind !== 'sheet') return null;
  if (pump.efficiencyCurve.length > 0) {
    const points = pump.efficiencyCurve.map((at) => `${Math.round(at.efficiency * 100)} % at ${at.headOverFall}`);
    return points.join(', ');
  }
  return pump.efficiency === null ? 'usual range' : efficiencyWords(pump.efficiency, units);
}

function runOf(pump: PumpChoice | null, units: UnitSystem): string | null {
  const runs = pump === null ? [] : runsOf(pump);
  return runs.length === 0 ? null : runs.map((run) => runWords(run, units)).join('; ');
}

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
    if (group.kind === 'row') return `${group.count} × ${groupLabel(group, units)}`;
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
