import { type Channel, noReadings, type Readings } from '../../diagnosis/model/readings.ts';
import {
  DELIVERY,
  DELIVERY_KEY,
  READ_AT_KEY,
  READING_KEYS,
  type ReadingKey,
  SIGNS,
  STATES,
  TANK_KEY,
  YES_NO_KEYS,
} from '../../diagnosis/words/reading-keys.ts';
import { type JsonObject, type JsonValue, parseJson } from '../../plan/file/json-text.ts';
import { kindOf, refusal } from './cycle-file.ts';

/** Readings as a file gives them. */
export interface ReadingsFile {
  readonly record: Readings | null;
  readonly now: Readings;
  /** Where the delivery of `now` was read; expected figures are told for the same place. */
  readonly readAt: ReadAt;
}

export type ReadAt = 'pump' | 'tank';
const PLACES: readonly string[] = ['pump', 'tank'];

const KEYS: readonly string[] = [
  'state',
  ...READING_KEYS.map(({ key }) => key),
  DELIVERY_KEY,
  READ_AT_KEY,
  TANK_KEY,
  ...YES_NO_KEYS.map(({ key }) => key),
  'signs',
];

/** Reads `{record: R | null, now: R}`; whatever is unknown or out of range is refused in one line. */
export function readReadingsFile(name: string, text: string): ReadingsFile {
  const parsed = parseJson(text);
  if (!parsed.ok) {
    const [problem] = parsed.problems;
    throw refusal(name, problem?.path ?? '', problem?.found ?? 'no JSON', problem?.expected ?? 'JSON');
  }
  const file = objectOf(name, '', parsed.value, '{"record": …, "now": …}');
  for (const key of Object.keys(file)) {
    if (key !== 'record' && key !== 'now') throw refusal(name, key, 'an unknown key', 'record, now');
  }
  if (file.now === undefined) throw refusal(name, 'now', 'nothing', 'an object of readings, {} for none');
  const now = readingsIn(name, 'now', file.now);
  const record = file.record === undefined || file.record === null ? null : readingsIn(name, 'record', file.record);
  return { record: record?.readings ?? null, ...{ now: now.readings, readAt: now.readAt } };
}

function readingsIn(name: string, path: string, value: JsonValue): { readings: Readings; readAt: ReadAt } {
  const given = objectOf(name, path, value, 'an object of readings such as {"beats_per_min": 58}');
  for (const key of Object.keys(given)) {
    if (!KEYS.includes(key)) throw refusal(name, `${path}.${key}`, 'an unknown key', KEYS.join(', '));
  }
  const values: Partial<Record<Channel, number | null>> = {};
  for (const row of READING_KEYS) values[row.channel] = numberIn(name, path, given, row);
  const readAt = oneOf(name, path, given, READ_AT_KEY, PLACES) as ReadAt | null;
  const delivery = numberIn(name, path, given, DELIVERY);
  const atTank = numberIn(name, path, given, { ...DELIVERY, key: TANK_KEY });
  if (atTank !== null && delivery !== null && readAt !== 'pump') {
    throw refusal(name, `${path}.${READ_AT_KEY}`, readAt ?? 'nothing', `pump, since ${TANK_KEY} is given too`);
  }
  const place: ReadAt = readAt ?? 'tank';
  values.deliveryAtPump = place === 'pump' ? delivery : null;
  values.deliveryAtTank = place === 'pump' ? atTank : (delivery ?? atTank);
  for (const { channel, key } of YES_NO_KEYS) values[channel] = yesNoIn(name, path, given, key);
  const state = oneOf(name, path, given, 'state', STATES) as Readings['state'];
  return { readings: { ...noReadings, ...values, state, signs: signsIn(name, path, given) }, readAt: place };
}

function numberIn(name: string, path: string, given: JsonObject, row: ReadingKey): number | null {
  const value = given[row.key];
  if (value === undefined || value === null) return null;
  const expected = `a number from ${row.least} to ${row.most}`;
  if (typeof value !== 'number') throw refusal(name, `${path}.${row.key}`, kindOf(value), expected);
  if (!(value >= row.least && value <= row.most)) throw refusal(name, `${path}.${row.key}`, String(value), expected);
  return value * row.factor;
}

function yesNoIn(name: string, path: string, given: JsonObject, key: string): number | null {
  const value = given[key];
  if (value === undefined || value === null) return null;
  if (typeof value !== 'boolean') throw refusal(name, `${path}.${key}`, kindOf(value), 'true or false');
  return Number(value);
}

function oneOf(name: string, path: string, given: JsonObject, key: string, choices: readonly string[]): string | null {
  const value = given[key];
  if (value === undefined || value === null) return null;
  if (typeof value === 'string' && choices.includes(value)) return value;
  throw refusal(name, `${path}.${key}`, kindOf(value), choices.join(', '));
}

function signsIn(name: string, path: string, given: JsonObject): Readings['signs'] {
  const value = given.signs;
  if (value === undefined || value === null) return [];
  if (!Array.isArray(value)) throw refusal(name, `${path}.signs`, kindOf(value), `a list of ${SIGNS.join(', ')}`);
  return value.map((sign: JsonValue, i) => {
    const known = SIGNS.find((one) => one === sign);
    if (known === undefined) throw refusal(name, `${path}.signs[${i}]`, kindOf(sign), SIGNS.join(', '));
    return known;
  });
}

function objectOf(name: string, path: string, value: JsonValue, expected: string): JsonObject {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    throw refusal(name, path, kindOf(value), expected);
  }
  return value as JsonObject;
}
