import type { Position } from '../../geodesy/position.ts';
import { emptyPlan, startingPoint } from '../../plan/model/empty-plan.ts';
import type { Plan, PlanPoint } from '../../plan/model/plan.ts';
import { USUAL_PLACE_SETTINGS } from '../../siting/places/pump-places.ts';
import { needAsHerd, type SiteRequest, USUAL_SEARCH } from '../../siting/systems/site-request.ts';
import { readQuantity } from '../../units/read-quantity.ts';
import { readAvoidFile } from './avoid-file.ts';
import { type FlagShape, type Flags, required } from './flags.ts';
import { type CommandIo, InputError } from './io.ts';
import { unitsFrom } from './plan-operand.ts';

/** What is asked of a spring, whether by flags or by a line of a file. */
export interface SpringAsked {
  readonly source: Position;
  /** Readings of the source's flow, m³/s. */
  readonly flows: readonly number[];
  /** m³ a day; null for none stated. */
  readonly need: number | null;
  readonly tanks: readonly Position[];
  readonly lift: number | null;
  readonly name: string;
}

/** Flags that `site` and `survey` share. */
export const SEARCH_SHAPES: Readonly<Record<string, FlagShape>> = {
  '--avoid': 'value',
  '--flood': 'value',
  '--margin': 'value',
  '--cells': 'value',
  '--units': 'value',
};

export const SEARCH_USAGE = `  --avoid        areas that no line may cross: GeoJSON polygons, and points at which they may be crossed
  --flood        how far above the stream the pump must stand; ${USUAL_PLACE_SETTINGS.floodMark} m when not given
  --margin       how far around source and tanks to look; ${USUAL_SEARCH.margin} m when not given
  --cells        heights that are read at most, coarser beyond; ${USUAL_SEARCH.mostCells} when not given
  --units        metric or us: the pipes that are proposed, and the units of the text; metric when not given
`;

/** A single figure for a flow is taken to be good to a fifth. Common practice, no source. */
const STATED_SHARE = 0.2;

export interface SearchFlags {
  readonly units: Plan['units'];
  request(asked: SpringAsked, terrain: Plan['terrain']): SiteRequest;
}

export async function searchFlags(flags: Flags, io: CommandIo): Promise<SearchFlags> {
  const path = flags.text('--avoid');
  const avoid = path === null ? [] : readAvoidFile(path, await io.readText(path));
  const units = unitsFrom(flags) ?? 'metric';
  const floodMark = notNegative(flags, '--flood', 'height') ?? USUAL_PLACE_SETTINGS.floodMark;
  const margin = notNegative(flags, '--margin', 'length') ?? USUAL_SEARCH.margin;
  const mostCells = cellsFrom(flags);
  return {
    units,
    request: (asked, terrain) => ({
      ...USUAL_SEARCH,
      base: { ...basePlan(asked, units), terrain },
      lift: asked.lift,
      avoid,
      ownPipe: null,
      settings: { ...USUAL_PLACE_SETTINGS, floodMark },
      margin,
      mostCells,
    }),
  };
}

function notNegative(flags: Flags, flag: string, kind: 'height' | 'length'): number | null {
  const value = flags.quantity(flag, kind);
  if (value !== null && value < 0) throw new InputError(`${flag}: found ${flags.text(flag)}, expected 0 or more`);
  return value;
}

const LEAST_CELLS = 10_000;

function cellsFrom(flags: Flags): number {
  const text = flags.text('--cells');
  if (text === null) return USUAL_SEARCH.mostCells;
  const value = Number(text);
  if (Number.isInteger(value) && value >= LEAST_CELLS) return value;
  throw new InputError(`--cells: found ${text}, expected a whole number from ${LEAST_CELLS}`);
}

/** The flags of one spring. */
export const SPRING_SHAPES: Readonly<Record<string, FlagShape>> = {
  '--source': 'value',
  '--yield': 'list',
  '--need': 'value',
  '--tank': 'list',
  '--lift': 'value',
};

export function springFrom(flags: Flags): SpringAsked {
  const place = required(flags.text('--source'), '--source', 'a place as longitude,latitude');
  const flows = flags.list('--yield').map((text) => flowFrom('--yield', text));
  if (flows.length === 0) throw new InputError('--yield is missing, expected a flow such as 12L/min');
  return {
    source: placeFrom('--source', place),
    flows,
    need: flags.quantity('--need', 'daily-volume'),
    tanks: flags.list('--tank').map((text) => placeFrom('--tank', text)),
    lift: flags.quantity('--lift', 'height'),
    name: 'Site',
  };
}

export function flowFrom(flag: string, text: string): number {
  const read = readQuantity(text, 'flow');
  if (read.ok && read.value > 0) return read.value;
  throw new InputError(`${flag}: found ${text}, expected a flow such as 12L/min`);
}

/** A plan with source, readings, need and tanks, and nothing else drawn. */
function basePlan(asked: SpringAsked, units: Plan['units']): Plan {
  const source = startingPoint('source', 'source', 'Source', asked.source);
  const tanks = asked.tanks.map((position, k): PlanPoint => {
    const number = asked.tanks.length > 1 ? ` ${k + 1}` : '';
    return startingPoint('tank', `tank${number.replace(' ', '-')}`, `Tank${number}`, position);
  });
  return {
    ...emptyPlan({ name: asked.name, units }),
    points: [source, ...tanks],
    yieldReadings: asked.flows.map((flow) => ({ kind: 'stated', flow, plusMinus: STATED_SHARE * flow })),
    herd: asked.need === null ? [] : needAsHerd(asked.need, 'Need'),
  };
}

/** A place typed as longitude and latitude in degrees. */
function placeFrom(flag: string, text: string): Position {
  const parts = text.split(',');
  const [lon = Number.NaN, lat = Number.NaN] = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (parts.length === 2 && Math.abs(lon) <= 180 && Math.abs(lat) <= 90) return { lon, lat };
  throw new InputError(`${flag}: found ${text}, expected a place as longitude,latitude in degrees`);
}
