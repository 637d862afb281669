import { type JsonValue, parseJson } from '../../plan/file/json-text.ts';
import type { Closing, Heads, RamSystem } from '../../ram/cycle/ram-system.ts';
import { InputError } from './io.ts';

/** A ram as a file describes it, for the `cycle` command. */
export interface CycleFile extends Heads {
  readonly ram: RamSystem;
  readonly closureRatio: number | null;
  readonly weightHead: number | null;
  readonly stroke: number | null;
  readonly closingTime: number | null;
  readonly airChamber: number | null;
  /** Delivery line, for `diagnose`; null where it was not given. */
  readonly line: { readonly length: number; readonly bore: number } | null;
}

interface Range {
  readonly least: number;
  readonly most: number;
}

/** Keys with what their values may be; wide enough for any ram, narrow enough for every answer to be finite. */
const KEYS = {
  bore_m: { least: 0.002, most: 1 },
  length_m: { least: 0.1, most: 2000 },
  wave_speed_m_s: { least: 30, most: 1600 },
  fall_m: { least: 0.05, most: 200 },
  delivery_head_m: { least: 0.05, most: 5000 },
  darcy_factor: { least: 0, most: 1 },
  k_entrance: { least: 0, most: 1000 },
  k_bend: { least: 0, most: 1000 },
  k_waste_valve: { least: 0.01, most: 1000 },
  k_check_valve: { least: 0, most: 1000 },
  closure_ratio: { least: 0.02, most: 0.999 },
  valve_weight_head_m: { least: 0.0001, most: 1000 },
  valve_stroke_m: { least: 0.0001, most: 1 },
  closing_time_s: { least: 0, most: 10 },
  check_lag_s: { least: 0, most: 1 },
  air_chamber_m3: { least: 1e-7, most: 100 },
  delivery_length_m: { least: 0.1, most: 20_000 },
  delivery_bore_m: { least: 0.002, most: 1 },
} as const satisfies Readonly<Record<string, Range>>;

export type CycleKey = keyof typeof KEYS;

/** Keys of the delivery line, which a beat does not ask for. */
const LINE_KEYS: readonly string[] = ['delivery_length_m', 'delivery_bore_m'];

/** Every key that a file may have. */
export const CYCLE_KEYS: readonly string[] = Object.keys(KEYS).filter((key) => !LINE_KEYS.includes(key));

/** The same with the delivery line. */
export const RAM_KEYS: readonly string[] = Object.keys(KEYS);

/** Reads the text of a file; whatever is missing, unknown or out of range is refused in one line. */
export function readCycleFile(name: string, text: string, keys: readonly string[] = CYCLE_KEYS): CycleFile {
  const parsed = parseJson(text);
  if (!parsed.ok) {
    const [problem] = parsed.problems;
    throw refusal(name, problem?.path ?? '', problem?.found ?? 'no JSON', problem?.expected ?? 'JSON');
  }
  const values = valuesOf(name, parsed.value, keys);
  const need = (key: CycleKey) => values.get(key) ?? missing(name, key);
  const ram: RamSystem = {
    bore: need('bore_m'),
    length: need('length_m'),
    waveSpeed: need('wave_speed_m_s'),
    darcyFactor: need('darcy_factor'),
    entranceLoss: need('k_entrance'),
    bendLoss: need('k_bend'),
    wasteValveLoss: need('k_waste_valve'),
    checkValveLoss: need('k_check_valve'),
    checkLag: values.get('check_lag_s') ?? 0,
  };
  const file = {
    ram,
    fall: need('fall_m'),
    deliveryHead: need('delivery_head_m'),
    closureRatio: values.get('closure_ratio') ?? null,
    weightHead: values.get('valve_weight_head_m') ?? null,
    stroke: values.get('valve_stroke_m') ?? null,
    closingTime: values.get('closing_time_s') ?? null,
    airChamber: values.get('air_chamber_m3') ?? null,
    line: lineOf(name, values.get('delivery_length_m') ?? null, values.get('delivery_bore_m') ?? null),
  };
  requireOneClosing(name, file);
  return file;
}

/**
 * How the waste valve closes: a closure ratio as it stands; a weight with the time given, else with the motion over its
 * stroke, else at once.
 */
export function closingOf(file: CycleFile): Closing {
  const { closureRatio, weightHead, stroke, closingTime } = file;
  if (closureRatio !== null) return { kind: 'share', closureRatio, closingTime: closingTime ?? 0 };
  if (weightHead === null) throw new RangeError('found neither ratio nor weight, expected one after reading the file');
  if (closingTime === null && stroke !== null) return { kind: 'stroke', weightHead, stroke };
  return { kind: 'weight', weightHead, closingTime: closingTime ?? 0 };
}

function lineOf(name: string, length: number | null, bore: number | null): CycleFile['line'] {
  if (length === null && bore === null) return null;
  if (length !== null && bore !== null) return { length, bore };
  throw refusal(name, length === null ? 'delivery_length_m' : 'delivery_bore_m', 'nothing', 'both of them or none');
}

function valuesOf(name: string, value: JsonValue, keys: readonly string[]): ReadonlyMap<string, number> {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    throw refusal(name, '', kindOf(value), 'an object with keys such as bore_m');
  }
  const values = new Map<string, number>();
  for (const [key, entry] of Object.entries(value as Readonly<Record<string, JsonValue>>)) {
    if (!isKey(key) || !keys.includes(key)) throw refusal(name, key, 'an unknown key', keys.join(', '));
    values.set(key, numberWithin(name, key, entry));
  }
  return values;
}

function numberWithin(name: string, key: CycleKey, value: JsonValue): number {
  const range: Range = KEYS[key];
  const expected = `a number from ${range.least} to ${range.most}`;
  if (typeof value !== 'number') throw refusal(name, key, kindOf(value), expected);
  if (!(value >= range.least && value <= range.most)) throw refusal(name, key, String(value), expected);
  return value;
}

function requireOneClosing(name: string, file: CycleFile): void {
  const { closureRatio, weightHead } = file;
  if ((closureRatio === null) !== (weightHead === null)) return;
  const found = closureRatio === null ? 'neither' : 'both';
  throw refusal(name, 'closure_ratio, valve_weight_head_m', found, 'one of them');
}

function isKey(key: string): key is CycleKey {
  return Object.hasOwn(KEYS, key);
}

function missing(name: string, key: CycleKey): never {
  throw new InputError(`${name}: ${key} is missing, expected a number from ${KEYS[key].least} to ${KEYS[key].most}`);
}

export function refusal(name: string, path: string, found: string, expected: string): InputError {
  return new InputError(`${name}${path === '' ? '' : `: ${path}`}: found ${found}, expected ${expected}`);
}

export function kindOf(value: JsonValue): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'string') return JSON.stringify(value.length > longest ? `${value.slice(0, longest)}…` : value);
  return typeof value === 'object' ? 'an object' : String(value);
}

/** Characters of a text that a message repeats. */
const longest = 40;
