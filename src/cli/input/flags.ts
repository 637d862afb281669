import type { QuantityKind } from '../../units/kind.ts';
import { type QuantityRefusal, readQuantity } from '../../units/read-quantity.ts';
import { InputError } from './io.ts';

/** How many values a flag takes: none, one, or as many as follow it. */
export type FlagShape = 'switch' | 'value' | 'list';

/** What stood on the command line after the command's name. */
export interface Flags {
  readonly operands: readonly string[];
  has(flag: string): boolean;
  /** Value of a flag that takes one; null when it was not given. */
  text(flag: string): string | null;
  list(flag: string): readonly string[];
  /** SI value of a flag with a unit; null when it was not given. */
  quantity(flag: string, kind: QuantityKind): number | null;
}

/** Sorts arguments into flags (`--bore 16mm`, `--bore=16mm`) and operands; anything unknown is refused. */
export function readFlags(args: readonly string[], shapes: Readonly<Record<string, FlagShape>>): Flags {
  const given = new Map<string, string[]>();
  const operands: string[] = [];
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at] ?? '';
    if (!arg.startsWith('--')) {
      operands.push(arg);
      continue;
    }
    const [flag, attached] = splitFlag(arg);
    const shape = shapes[flag];
    if (shape === undefined) throw new InputError(`found ${flag}, expected ${Object.keys(shapes).join(', ')}`);
    const values = attached === null ? following(args.slice(at + 1), shape) : [attached];
    if (attached === null) at += values.length;
    store(given, flag, shape, values);
  }
  return {
    operands,
    has: (flag) => given.has(flag),
    text: (flag) => given.get(flag)?.[0] ?? null,
    list: (flag) => given.get(flag) ?? [],
    quantity: (flag, kind) => {
      const text = given.get(flag)?.[0];
      return text === undefined ? null : quantityOf(flag, text, kind);
    },
  };
}

/** What a flag must have been given. */
export function required<T>(value: T | null, flag: string, expected: string): T {
  if (value === null) throw new InputError(`${flag} is missing, expected ${expected}`);
  return value;
}

function splitFlag(arg: string): [string, string | null] {
  const equals = arg.indexOf('=');
  return equals < 0 ? [arg, null] : [arg.slice(0, equals), arg.slice(equals + 1)];
}

function following(rest: readonly string[], shape: FlagShape): string[] {
  if (shape === 'switch') return [];
  const end = rest.findIndex((arg) => arg.startsWith('--'));
  const values = end < 0 ? [...rest] : rest.slice(0, end);
  return shape === 'value' ? values.slice(0, 1) : values;
}

function store(given: Map<string, string[]>, flag: string, shape: FlagShape, values: readonly string[]): void {
  const before = given.get(flag) ?? [];
  if (shape === 'switch' && values.length > 0) throw new InputError(`${flag}: found a value, expected none`);
  if (shape !== 'switch' && values.length === 0) throw new InputError(`${flag}: found no value, expected one after it`);
  if (shape === 'value' && before.length > 0) throw new InputError(`${flag}: found twice, expected once`);
  given.set(flag, [...before, ...values]);
}

function quantityOf(flag: string, text: string, kind: QuantityKind): number {
  const reading = readQuantity(text, kind);
  if (reading.ok) return reading.value;
  throw new InputError(`${flag}: found ${refused(reading)}, expected ${reading.expected}`);
}

/** What was found, with what is wrong about it where the text alone does not show it. */
function refused(reading: QuantityRefusal): string {
  switch (reading.code) {
    case 'empty':
      return 'nothing';
    case 'unit-missing':
      return `${reading.found} without a unit`;
    case 'unit-unknown':
      return `${reading.found} in an unknown unit`;
    case 'unit-unfit':
      return `${reading.found}, a unit of something else`;
    case 'parts-unfit':
      return `${reading.found}, whose parts do not make one number`;
    default:
      return reading.found;
  }
}
