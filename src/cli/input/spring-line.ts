import { z } from 'zod';
import { readQuantity } from '../../units/read-quantity.ts';
import { InputError } from './io.ts';
import { flowFrom, type SpringAsked } from './site-flags.ts';

const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).rest(z.number());

/** Quantities are texts with their unit, as the flags of `site` take them. */
const properties = z.looseObject({
  name: z.string().optional(),
  yield: z.union([z.string(), z.array(z.string()).min(1)]),
  need: z.string().nullish(),
  lift: z.string().nullish(),
  tanks: z.array(position).optional(),
});

const feature = z.object({
  type: z.literal('Feature'),
  id: z.union([z.string(), z.number()]).optional(),
  geometry: z.object({ type: z.literal('Point'), coordinates: position }),
  properties,
});

const EXPECTED =
  'a GeoJSON point feature in one line, with yield (such as "12L/min") and, where they are known, need, lift, tanks and name';

/** A line's id, whatever else may be wrong with it; null where it has none. */
export function idOfLine(line: string): string | number | null {
  try {
    const found = z.looseObject({ id: z.union([z.string(), z.number()]) }).safeParse(JSON.parse(line));
    return found.success ? found.data.id : null;
  } catch {
    return null;
  }
}

/** Reads one line of newline-delimited GeoJSON. */
export function springLine(line: string): SpringAsked {
  const found = feature.safeParse(parsed(line));
  if (!found.success) throw new InputError(`found something else, expected ${EXPECTED}`);
  const { id, geometry, properties: about } = found.data;
  const at = ([lon, lat]: readonly [number, number, ...number[]]) => ({ lon, lat });
  const flows = typeof about.yield === 'string' ? [about.yield] : about.yield;
  return {
    source: at(geometry.coordinates),
    flows: flows.map((text) => flowFrom('yield', text)),
    need: quantityOf('need', about.need, 'daily-volume'),
    lift: quantityOf('lift', about.lift, 'height'),
    tanks: (about.tanks ?? []).map(at),
    name: about.name ?? String(id ?? 'Site'),
  };
}

function quantityOf(key: string, text: string | null | undefined, kind: 'daily-volume' | 'height'): number | null {
  if (text == null) return null;
  const read = readQuantity(text, kind);
  if (read.ok) return read.value;
  throw new InputError(`${key}: found ${text}, expected ${read.expected}`);
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch (error) {
    throw new InputError(`found no JSON (${error instanceof Error ? error.message : error}), expected ${EXPECTED}`);
  }
}
