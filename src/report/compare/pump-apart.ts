import type { PumpChoice } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { efficiencyWords } from '../words/efficiency-words.ts';
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
export function pumpApart(one: PumpChoice | null, other: PumpChoice | null, units: UnitSystem): ComparedRow[] {
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
    wordsRow('Pump: efficiency', [efficiencyOf(one), efficiencyOf(other)]),
    wordsRow('Pump: measured run', [runOf(one, units), runOf(other, units)]),
  ];
}

const KINDS = { sheet: 'by its sheet', ram: 'by its parts' } as const;

const nameOf = (pump: PumpChoice | null) => (pump === null ? null : `${pump.label}, ${KINDS[pump.kind]}`);

function efficiencyOf(pump: PumpChoice | null): string | null {
  if (pump?.kind !== 'sheet') return null;
  if (pump.efficiencyCurve.length > 0) {
    const points = pump.efficiencyCurve.map((at) => `${Math.round(at.efficiency * 100)} % at ${at.headOverFall}`);
    return points.join(', ');
  }
  return pump.efficiency === null ? 'planning band' : efficiencyWords(pump.efficiency);
}

function runOf(pump: PumpChoice | null, units: UnitSystem): string | null {
  const run = pump?.measured ?? null;
  if (run === null) return null;
  const [took, gave] = [run.driveFlow, run.delivery].map((flow) => writeQuantity(flow, 'flow', units));
  const [fall, head] = [run.fall, run.deliveryHead].map((height) => writeQuantity(height, 'height', units));
  return `took ${took} at ${fall}, delivered ${gave} at ${head}`;
}
