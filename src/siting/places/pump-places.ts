import { SHALLOW_TRENCH } from '../../evaluation/site/line-profile.ts';
import { normalChance } from '../../evaluation/statistics/normal.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import { driveLengths } from '../../ram/cycle/drive-length.ts';
import { varianceOfDifference } from '../../terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import { type FallingPipe, NO_PIPE } from '../fields/falling-pipe.ts';
import { RUNS_OFF } from '../fields/flood.ts';
import { cellSides, type OpenGround } from '../fields/open-ground.ts';
import { stepsOn } from '../fields/steps.ts';
import { legBetween } from '../search/leg.ts';
import type { ValleyLine } from '../valley/valley-line.ts';

/** How places are looked for. Each figure is common practice, no source, unless the handbook has it. */
export interface PlaceSettings {
  /** How far above the stream's level the pump must stand. */
  readonly floodMark: Metres;
  /** How far from the stream it may stand. */
  readonly bankReach: Metres;
  /** Least fall of waste water on its way to the stream. */
  readonly wasteFall: Ratio;
  readonly wasteValveHeight: Metres;
  readonly inletHeight: Metres;
  /** Standpipes taller than this are not proposed. */
  readonly tallestStandpipe: Metres;
  readonly freeboard: Metres;
  /** Water above the inlet. */
  readonly cover: Metres;
  /** Head that the supply line may lose, as a share of the fall. */
  readonly supplyShare: Ratio;
  /** How deep a trench for the drive pipe may be. */
  readonly deepestTrench: Metres;
  /** How sure the least fall must be reached. */
  readonly confidence: Ratio;
  /** Steps along the valley at which a pump is tried. */
  readonly every: Metres;
}

export const USUAL_PLACE_SETTINGS: PlaceSettings = {
  floodMark: 0.3,
  bankReach: 12,
  wasteFall: 0.01,
  wasteValveHeight: 0.2,
  inletHeight: 0.3,
  tallestStandpipe: 4,
  freeboard: criterion('standpipe-freeboard-least').value,
  cover: 0.25,
  supplyShare: 0.1,
  deepestTrench: 1.5,
  confidence: 0.9,
  every: 4,
};

/** A place where a pump can stand, with its standpipe (null: the drive pipe comes straight from the source). */
export interface PumpPlace {
  readonly pump: number;
  readonly standpipe: number | null;
  /** Index along the valley line beside it. */
  readonly along: number;
  /** Fall while running, likely, m. */
  readonly fall: Metres;
  readonly chance: Ratio;
  readonly drive: DriveCourse;
  /** Level length of the supply line, m. */
  readonly supply: Metres;
}

/** Why a place on the bank was given up: what came nearest is told when nothing is found. */
export interface PlaceRefusal {
  readonly code: 'fall-short' | 'fall-great' | 'drive-blocked' | 'supply-blocked' | 'waste-stands';
  readonly cell: number;
  readonly excess: Metres;
}

export interface PlaceSearch {
  readonly ground: OpenGround;
  readonly valley: ValleyLine;
  readonly pipe: FallingPipe;
  readonly source: { readonly cell: number; readonly water: Metres };
  readonly bore: Metres;
  readonly accuracy: HeightAccuracy;
  readonly settings: PlaceSettings;
}

/** Every place along the valley line at which a pump can stand, and the refusals where it cannot. */
export function pumpPlaces(search: PlaceSearch): { readonly places: PumpPlace[]; readonly refusals: PlaceRefusal[] } {
  const { valley, settings } = search;
  const places: PumpPlace[] = [];
  const refusals: PlaceRefusal[] = [];
  let next = 0;
  const tried = new Set<number>();
  for (let i = 1; i < valley.cells.length; i++) {
    if ((valley.at[i] as number) < next) continue;
    next = (valley.at[i] as number) + settings.every;
    const pump = bankCell(search, i);
    if (pump === null || tried.has(pump)) continue;
    tried.add(pump);
    const found = placeAt(search, pump, i);
    if ('code' in found) refusals.push(found);
    else places.push(found);
  }
  return { places, refusals };
}

/** The lowest cell near the stream that stands above the flood mark, the nearest of those about as low. */
function bankCell({ ground, valley, settings, source }: PlaceSearch, along: number): number | null {
  const { columns, rows, heights, open } = ground;
  const { width, height } = cellSides(ground);
  const stream = valley.cells[along] as number;
  const mark = (valley.level[along] as number) + settings.floodMark;
  const row = Math.floor(stream / columns);
  const column = stream - row * columns;
  // Wide cells show no bank: the stream's own cell stands for it.
  const reachColumns = Math.floor(settings.bankReach / width);
  const reachRows = Math.floor(settings.bankReach / height);
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let r = Math.max(0, row - reachRows); r <= Math.min(rows - 1, row + reachRows); r++) {
    for (let c = Math.max(0, column - reachColumns); c <= Math.min(columns - 1, column + reachColumns); c++) {
      const cell = r * columns + c;
      const z = heights[cell] as number;
      if (open[cell] !== 1 || cell === source.cell || z < mark) continue;
      const far = Math.hypot((c - column) * width, (r - row) * height);
      const cost = z - mark + BANK_PER_METRE * far;
      if (far > settings.bankReach || cost >= least) continue;
      least = cost;
      best = cell;
    }
  }
  if (best !== null || reachColumns > 0) return best;
  return open[stream] === 1 && stream !== source.cell ? stream : null;
}

/** A metre farther from the stream is worth so much height, in m. Common practice, no source. */
const BANK_PER_METRE = 0.05;

function placeAt(search: PlaceSearch, pump: number, along: number): PumpPlace | PlaceRefusal {
  const { ground, valley, source, settings, accuracy } = search;
  const z = ground.heights[pump] as number;
  const atRest = source.water - z - settings.wasteValveHeight;
  const fall = atRest * (1 - settings.supplyShare / 2);
  const least = criterion('fall-least').value;
  const deviation = Math.sqrt(
    varianceOfDifference(accuracy, {
      distance: Math.max(accuracy.cell, valley.at[along] as number),
      slopes: [slopeAt(ground, source.cell), slopeAt(ground, pump)],
    }),
  );
  const chance = normalChance((fall - least) / deviation);
  // What may be is shown; what surely is not is left out. How sure it must be decides between places that hold and others.
  if (chance < 1 - settings.confidence || fall <= 0) return { code: 'fall-short', cell: pump, excess: least - fall };
  if (!wasteRuns(search, pump, along)) return { code: 'waste-stands', cell: pump, excess: 0 };
  return standpipeFor(search, { pump, along, fall, chance });
}

function slopeAt({ columns, rows, heights, cell }: OpenGround, at: number): Ratio {
  const row = Math.floor(at / columns);
  const column = at - row * columns;
  if (column < 1 || row < 1 || column > columns - 2 || row > rows - 2) return 0;
  const x =
    ((heights[at + 1] as number) - (heights[at - 1] as number)) /
    (2 * Math.hypot(cell.eastPerColumn, cell.northPerColumn));
  const y =
    ((heights[at + columns] as number) - (heights[at - columns] as number)) /
    (2 * Math.hypot(cell.eastPerRow, cell.northPerRow));
  return Math.hypot(x, y);
}

/** Water may stand so deep on its way without that being a pit: noise of the heights. */
const PUDDLE: Metres = 0.15;

/** Whether waste water finds its way from the pump to the stream: no pit on it, and fall enough. */
function wasteRuns({ valley, ground, settings }: PlaceSearch, pump: number, along: number): boolean {
  const { offset, run } = stepsOn(ground, 8);
  const stream = new Set(valley.cells);
  const start = valley.cut.heights[pump] as number;
  let cell = pump;
  let length = 0;
  while (!stream.has(cell)) {
    if ((valley.flood.level[cell] as number) - (valley.cut.heights[cell] as number) > PUDDLE) return false;
    const k = valley.flood.downstream[cell] as number;
    if (k >= RUNS_OFF) return true;
    length += run[k] as number;
    cell += offset[k] as number;
  }
  const level = valley.level[Math.max(along, valley.cells.indexOf(cell))] as number;
  return start - level >= settings.wasteFall * length;
}

interface Standing {
  readonly pump: number;
  readonly along: number;
  readonly fall: Metres;
  readonly chance: Ratio;
}

/** Cells that the longest course of a drive pipe spans at the least. Common practice, no source. */
const COURSE_CELLS = 1.5;

/** The greatest fall on which a drive pipe of a bore keeps both rules of its length: the least by the fall is the most by the bore. */
function greatestFall(bore: Metres): Metres {
  const { byBore, byFall } = driveLengths(bore, 1);
  return byBore.most / byFall.least;
}

/** The standpipe that costs least in pipe and digging, for a pump on its place. */
function standpipeFor(search: PlaceSearch, standing: Standing): PumpPlace | PlaceRefusal {
  const { ground, pipe, source, bore, settings } = search;
  const { pump, fall } = standing;
  const { columns, rows, heights } = ground;
  const { width, height } = cellSides(ground);
  const lengths = driveLengths(bore, fall);
  const rule = lengths.both;
  if (rule === null) return { code: 'fall-great', cell: pump, excess: fall - greatestFall(bore) };
  // On cells wider than its length the drive pipe is cut short once its course is known.
  const most = Math.max(rule.most, COURSE_CELLS * Math.max(width, height));
  const row = Math.floor(pump / columns);
  const column = pump - row * columns;
  const straightFrom = levelBetween(ground, source.cell, pump);
  let best: PumpPlace | null = null;
  let least = Number.POSITIVE_INFINITY;
  let blocked: PlaceRefusal | null = null;
  let reached = false;
  const consider = (cell: number, standpipe: boolean, far: Metres): void => {
    const course = driveCourse(ground, cell, pump);
    if (course === null) return;
    reached = true;
    const depth = course.rise;
    if (depth > settings.deepestTrench) {
      if (blocked === null || depth < blocked.excess)
        blocked = { code: 'drive-blocked', cell: course.highest, excess: depth };
      return;
    }
    const supply = standpipe ? (pipe.length[cell] as number) : 0;
    const cost =
      supply +
      far * DRIVE_AS_SUPPLY +
      course.digging * DIG_AS_PIPE +
      Math.max(0, course.hollow - SHALLOW_TRENCH) * HOLLOW_AS_PIPE +
      Math.abs(far - lengths.usual) +
      (standpipe ? 5 : 0);
    if (cost >= least) return;
    least = cost;
    best = { ...standing, standpipe: standpipe ? cell : null, drive: course, supply };
  };
  if (straightFrom >= rule.least && straightFrom <= most) consider(source.cell, false, straightFrom);
  const columnsReach = Math.ceil(most / width);
  const rowsReach = Math.ceil(most / height);
  const level = source.water - settings.supplyShare * fall;
  // A ring of a few thousand cells is looked at in full, a larger one every few cells.
  const stride = Math.max(1, Math.floor(Math.sqrt(((2 * columnsReach + 1) * (2 * rowsReach + 1)) / MOST_TRIED)));
  for (let r = Math.max(0, row - rowsReach); r <= Math.min(rows - 1, row + rowsReach); r += stride) {
    for (let c = Math.max(0, column - columnsReach); c <= Math.min(columns - 1, column + columnsReach); c += stride) {
      const cell = r * columns + c;
      if (pipe.level[cell] === NO_PIPE || cell === source.cell) continue;
      const z = heights[cell] as number;
      const far = Math.hypot((c - column) * width, (r - row) * height);
      if (far < rule.least || far > most) continue;
      if (z + settings.inletHeight + settings.cover > level) continue;
      if (source.water + settings.freeboard - z > settings.tallestStandpipe) continue;
      consider(cell, true, far);
    }
  }
  if (best !== null) return best;
  return blocked ?? { code: reached ? 'drive-blocked' : 'supply-blocked', cell: pump, excess: 0 };
}

/** Steel costs about twice as much a metre as the supply line's plastic; a metre of trench as much as three of pipe. Common practice, no source. */
const DRIVE_AS_SUPPLY = 2;
const DIG_AS_PIPE = 3;
/** A metre that the drive pipe hangs in the air asks for props: as much as so many metres of pipe. Common practice, no source. */
const HOLLOW_AS_PIPE = 40;
/** Places for a standpipe that are tried for one pump, at most. */
const MOST_TRIED = 6000;

function levelBetween(ground: OpenGround, a: number, b: number): Metres {
  const { width, height } = cellSides(ground);
  const { columns } = ground;
  return Math.hypot(
    ((a % columns) - (b % columns)) * width,
    (Math.floor(a / columns) - Math.floor(b / columns)) * height,
  );
}

/** A straight drive pipe between two cells, against the ground under it. */
interface DriveCourse {
  /** Along the slope, m. */
  readonly length: Metres;
  /**
   * How deep it has to be dug in, m: the greatest height of the ground above it, or what the ground climbs on the way down if
   * that is more; 0 where neither is.
   */
  readonly rise: Metres;
  /** The cell at which that is. */
  readonly highest: number;
  /** How far it would hang above the ground at most, m. */
  readonly hollow: Metres;
  /** Metres of it that have to be dug in deeper than a shallow trench. */
  readonly digging: Metres;
}

/** How a straight drive pipe would lie; null where it crosses shut or unknown ground, or does not fall. */
export function driveCourse(ground: OpenGround, from: number, to: number): DriveCourse | null {
  const { columns } = ground;
  const placeOf = (cell: number) => ({ column: cell % columns, row: Math.floor(cell / columns) });
  const [start, end] = [placeOf(from), placeOf(to)];
  const leg = legBetween({ ...ground, known: ground.open }, start, end);
  if (!leg) return null;
  const steps = leg.ground.length - 1;
  const [top, bottom] = [leg.ground[0] as number, leg.ground[steps] as number];
  if (bottom >= top) return null;
  let rise = 0;
  let worst = 0;
  let digging = 0;
  let hollow = 0;
  let lowest = top;
  for (let k = 1; k < steps; k++) {
    const above = (leg.ground[k] as number) - (top + ((bottom - top) * k) / steps);
    hollow = Math.max(hollow, -above);
    lowest = Math.min(lowest, leg.ground[k] as number);
    const deep = Math.max(above, (leg.ground[k] as number) - lowest);
    if (deep > SHALLOW_TRENCH) digging += leg.step;
    if (deep > rise) {
      rise = deep;
      worst = k;
    }
  }
  const column = Math.round(start.column + ((end.column - start.column) * worst) / steps);
  const row = Math.round(start.row + ((end.row - start.row) * worst) / steps);
  return { length: Math.hypot(leg.step * steps, top - bottom), rise, highest: row * columns + column, hollow, digging };
}
