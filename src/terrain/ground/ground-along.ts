import { CompensatedSum } from '../../geodesy/compensated-sum.ts';
import { polylineLength } from '../../geodesy/polyline-length.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import type { GridFlaw } from '../grid/grid.ts';
import { fileCount, filesOf, type GridFile } from '../grid/grid-files.ts';
import type { GroundLine, HeightAccuracy, LineDoubt, VoidSpan } from '../grid/ground.ts';
import { cellOnGround, cellSize, type PlacedGrid } from '../grid/placed-grid.ts';
import { flawNote, type TerrainNote } from '../grid/terrain-note.ts';
import { cellsOf, distancesOf, layOutSamples, placesOf } from './route-samples.ts';
import { sampleGrid } from './sample-grid.ts';
import { seamNotes } from './seams.ts';

/** Most samples along one line. A longer one, some 100 km on cells of a metre, is sampled more coarsely and says so. */
export const MOST_SAMPLES = 200_000;

const MOST_VERTICES = MOST_SAMPLES / 4;

/** A little under half a cell, since the cell is measured at a few places of the line only. */
const STEP_IN_CELLS = 0.49;

/**
 * The ground along a drawn line, from one or several grids: where the first has no height the next is asked. `accuracyOf` tells
 * the class of a file that is not of the terrain's.
 */
export async function groundAlong(
  grids: readonly PlacedGrid[],
  line: readonly Position[],
  signal?: AbortSignal,
  accuracyOf: (file: string) => HeightAccuracy | undefined = () => undefined,
): Promise<GroundLine> {
  checkLine(line);
  const cells = grids.map((placed) => cellNear(placed, line));
  const finest = Math.min(...cells.map(({ width, height }) => Math.min(width, height)));
  const wanted = STEP_IN_CELLS * finest;
  const step = Math.max(wanted, polylineLength(line) / (MOST_SAMPLES - 2 * line.length));
  const samples = layOutSamples(line, step);
  const ground = new Float64Array(samples.count);
  const known = new Uint8Array(samples.count);
  const marks = new Uint16Array(samples.count);
  const doubt = { slope: new Float32Array(samples.count), smoothing: new Float32Array(samples.count) };
  const flaws: GridFlaw[] = [];
  let before = 0;
  for (const [k, placed] of grids.entries()) {
    if (!known.includes(0)) break;
    const track = cellsOf(samples, line, placed, cells[k] as CellSize);
    flaws.push(...(await sampleGrid(placed, track, { height: ground, known, ...doubt }, { marks, before }, signal)));
    before += fileCount(placed.grid);
  }
  const at = distancesOf(samples);
  const places = placesOf(samples, line);
  const files = filesOf(grids);
  const seams = files.length > 1 ? await seamNotes({ at, ...places, ground, known, marks }, files, signal) : [];
  const coarse = step > wanted ? [coarseNote(step, wanted)] : [];
  const notes = [...seams, ...coarse, ...flawsTogether(flaws).map(flawNote)];
  return {
    at,
    ...places,
    ground,
    known,
    vertices: samples.vertices,
    voids: voidSpans(known),
    horizontal: samples.horizontal,
    slope: groundLength(at, ground, known),
    doubt: { ...doubt, ...otherClasses(files, marks, accuracyOf) },
    ...(notes.length > 0 ? { notes } : {}),
  };
}

/** The classes of those files that are not of the terrain's, where there are any. */
function otherClasses(
  files: readonly GridFile[],
  mark: Uint16Array,
  accuracyOf: (file: string) => HeightAccuracy | undefined,
): Pick<LineDoubt, 'other'> {
  const others = files.flatMap((file) => {
    const accuracy = accuracyOf(file.name);
    return accuracy && mark.includes(file.mark) ? [[file.mark, accuracy] as const] : [];
  });
  return others.length > 0 ? { other: { mark, accuracy: new Map(others) } } : {};
}

/** What made holes in the windows of a line, a file at a time; the windows share no cell but those of their margins. */
function flawsTogether(flaws: readonly GridFlaw[]): GridFlaw[] {
  const byFile = new Map<string, GridFlaw>();
  for (const flaw of flaws) {
    const key = `${flaw.code} ${flaw.file}`;
    const before = byFile.get(key);
    const count =
      flaw.code === 'broken-blocks' ? Math.max(before?.count ?? 0, flaw.count) : (before?.count ?? 0) + flaw.count;
    byFile.set(key, before ? { ...before, count } : flaw);
  }
  return [...byFile.values()];
}

const coarseNote = (step: Metres, wanted: Metres): TerrainNote => ({
  code: 'coarse-samples',
  data: { step_m: step, wanted_m: wanted },
});

function checkLine(line: readonly Position[]): void {
  if (line.length === 0 || line.length > MOST_VERTICES) {
    throw new Error(`vertices of a line: found ${line.length}, expected 1 to ${MOST_VERTICES}`);
  }
  for (const { lon, lat } of line) {
    if (Number.isFinite(lon) && Math.abs(lat) <= 90) continue;
    throw new Error(`a vertex: found longitude ${lon}, latitude ${lat}, expected degrees on the globe`);
  }
}

interface CellSize {
  readonly width: Metres;
  readonly height: Metres;
}

/** The least cell on the ground along a line, looked up at a few of its vertices; that of the grid's middle for want of others. */
function cellNear(placed: PlacedGrid, line: readonly Position[]): CellSize {
  const { columns, rows } = placed.grid;
  const middle = { column: columns / 2, row: rows / 2 };
  const sizes = lookedAt(line).flatMap((position) => {
    const cell = placed.cellAt(position);
    const inside = cell && cell.column >= 0 && cell.column <= columns && cell.row >= 0 && cell.row <= rows;
    const onGround = cellOnGround(placed, inside ? cell : middle);
    return onGround ? [cellSize(onGround)] : [];
  });
  if (sizes.length === 0) throw new Error(`cell size of ${placed.grid.name}: found none, expected a place of its CRS`);
  return {
    width: Math.min(...sizes.map((s) => s.width)),
    height: Math.min(...sizes.map((s) => s.height)),
  };
}

/** Vertices at which the cell is measured: both ends, the northernmost, the southernmost and some in between. */
const LOOKED_AT = 8;

function lookedAt(line: readonly Position[]): readonly Position[] {
  const every = Math.max(1, Math.floor(line.length / LOOKED_AT));
  const some = line.filter((_, k) => k % every === 0 || k === line.length - 1);
  const byLatitude = (pick: (a: number, b: number) => boolean): Position | undefined =>
    line.reduce<Position | undefined>((best, v) => (best && !pick(v.lat, best.lat) ? best : v), undefined);
  const extremes = [byLatitude((a, b) => a > b), byLatitude((a, b) => a < b)];
  return [...some, ...extremes.flatMap((v) => (v ? [v] : []))];
}

/** Stretches without a height, as first and last sample. */
function voidSpans(known: Uint8Array): VoidSpan[] {
  const spans: VoidSpan[] = [];
  let first = -1;
  for (let i = 0; i <= known.length; i++) {
    const missing = i < known.length && known[i] === 0;
    if (missing && first < 0) first = i;
    if (!missing && first >= 0) {
      spans.push({ first, last: i - 1 });
      first = -1;
    }
  }
  return spans;
}

/**
 * Length along the ground: Σ √(Δat² + Δz²) between neighbouring known samples.
 *
 * A void counts as straight between the heights on either side, and as level before the first height and after the last.
 */
function groundLength(at: Float64Array, ground: Float64Array, known: Uint8Array): Metres {
  const sum = new CompensatedSum();
  let before = -1;
  for (let i = 0; i < at.length; i++) {
    if (known[i] === 0) continue;
    if (before < 0) sum.add((at[i] as number) - (at[0] as number));
    else
      sum.add(
        Math.hypot((at[i] as number) - (at[before] as number), (ground[i] as number) - (ground[before] as number)),
      );
    before = i;
  }
  if (at.length > 0) sum.add((at[at.length - 1] as number) - (at[Math.max(before, 0)] as number));
  return sum.value;
}
