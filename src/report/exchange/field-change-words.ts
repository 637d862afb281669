import { distanceBetween } from '../../geodesy/geodesic.ts';
import type { FieldChange, SettingKey } from '../../plan/exchange/field-changes.ts';
import type { Plan, RunRecord, UnitSystem, YieldReading } from '../../plan/model/plan.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { measurementWords } from '../words/measure-words.ts';
import { writeTimes } from '../words/quantity-words.ts';

const SETTINGS: Readonly<Record<SettingKey, string>> = {
  name: 'name of the plan',
  waterTemperature: 'temperature of the water',
  pump: 'pump',
  dryShare: 'share of the source in the dry season',
  dryShareDoubt: 'doubt of the share in the dry season',
  leftInStream: 'share that stays in the stream',
  herd: 'animals',
  year: 'months of the year',
  materials: 'prices',
  confidence: 'how sure a limit has to be',
};

/** A change that came back, in one line; names are those of the plan that came back. */
export function fieldChangeWords(change: FieldChange, back: Plan, units: UnitSystem): string {
  const words = wordsOf(change, back, units);
  return change.clash ? `${words} (also changed at home: taking it undoes that)` : words;
}

function wordsOf(change: FieldChange, back: Plan, units: UnitSystem): string {
  switch (change.kind) {
    case 'point-added':
      return `New: ${change.point.name}`;
    case 'point-moved': {
      const far = writeQuantity(distanceBetween(change.from, change.point.position), 'length', units);
      return `${change.point.name} moved by ${far}`;
    }
    case 'point-changed':
      return `${change.point.name}: its heights, sizes or note`;
    case 'point-removed':
      return `Deleted: ${change.point.name}, with its lines and levels`;
    case 'route-added':
      return `New: ${change.route.name}`;
    case 'route-redrawn':
      return `${change.route.name} drawn another way`;
    case 'route-changed':
      return `${change.route.name}: its pipe, fittings or note`;
    case 'route-removed':
      return `Deleted: ${change.route.name}`;
    case 'listed':
      return `${change.gone ? 'Taken back' : 'New'}: ${entryWords(change, back, units)}`;
    case 'setting':
      return `Changed: ${SETTINGS[change.setting]}`;
  }
}

function entryWords(change: Extract<FieldChange, { kind: 'listed' }>, back: Plan, units: UnitSystem): string {
  switch (change.list) {
    case 'measurements':
      return `level, ${measurementWords(change.entry, back, units)}`;
    case 'yieldReadings':
      return `reading of the source, ${readingWords(change.entry, units)}`;
    case 'records':
      return `record of the pump, ${recordWords(change.entry)}`;
  }
}

function readingWords(reading: YieldReading, units: UnitSystem): string {
  if (reading.kind === 'stated') return writeQuantity(reading.flow, 'flow', units);
  return `${writeQuantity(reading.volume, 'volume', units)} in ${writeTimes(reading.times)} s`;
}

const recordWords = ({ date, by }: RunRecord): string => (by === '' ? date : `${date}, ${by}`);
