import type { Position } from '../../geodesy/position.ts';
import { type Projection, projectionOf } from '../../geodesy/projection.ts';
import type { Outcome, Problem } from '../../units/outcome.ts';
import type { ByteSource } from '../bytes/byte-source.ts';
import { FileRefusal } from '../bytes/file-refusal.ts';
import type { OpenAnswers, Question } from '../georeference/open-answers.ts';
import type { ElevationGrid } from '../grid/grid.ts';
import type { TerrainSource } from '../grid/grid-files.ts';
import type { HeightAccuracy } from '../grid/ground.ts';
import { joinLattices, membersOf } from '../grid/mosaic.ts';
import { type PlacedGrid, placedGrid } from '../grid/placed-grid.ts';
import { flawNote } from '../grid/terrain-note.ts';
import { type Beside, withBeside } from '../open/beside.ts';
import { openElevation } from '../open/open-elevation.ts';
import { asRecorded, type HeightsRecord, type OpenedGrid } from '../open/opened-grid.ts';
import { groundAlong } from './ground-along.ts';
import { groundAt } from './ground-at.ts';
import { type GridTerrain, groundWindow } from './ground-window.ts';
import { aboutTerrain, accuracyOfSource, type PlacedSource, placedSource } from './terrain-about.ts';

interface TerrainChoice {
  /** A class of `data/height-accuracy.json` or the user's own constants; null infers one for each file. */
  readonly accuracy: HeightAccuracy | string | null;
}

/** A terrain of one or several opened files: the finest that has a height at a place decides there. */
export async function terrainFromGrids(
  sources: readonly TerrainSource[],
  choice: TerrainChoice = { accuracy: null },
): Promise<Outcome<GridTerrain>> {
  const placed: PlacedSource[] = [];
  const problems: Problem[] = [...sourceProblems(sources)];
  for (const source of sources) {
    const projection = await projectionOf(source.grid.crs);
    if (!projection.ok) problems.push(...projection.problems.map((p) => ({ ...p, path: source.file })));
    else problems.push(...addPlaced(placed, source, projection.value, choice));
  }
  if (problems.length > 0) return { ok: false, problems: toldOnce(problems) };
  return { ok: true, value: terrainOf(placed) };
}

function addPlaced(
  placed: PlacedSource[],
  source: TerrainSource,
  projection: Projection,
  choice: TerrainChoice,
): Problem[] {
  const added = placedSource(source, projection);
  if (!added) {
    const expected = `a place of ${projection.name}`;
    return [{ code: 'terrain-off-the-map', path: source.file, found: 'a grid outside its own CRS', expected }];
  }
  const accuracy = accuracyOfSource(added, choice.accuracy);
  if (accuracy) placed.push({ ...added, ...accuracy });
  const found = String(choice.accuracy);
  return accuracy
    ? []
    : [{ code: 'accuracy-unknown', path: 'terrain.accuracy', found, expected: 'a class of heights' }];
}

/** A class that does not exist is wrong once, whatever the number of files. */
function toldOnce(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((p) => [`${p.code} ${p.path}`, p])).values()];
}

/** Nothing to open, or heights above different zero levels, which may not stand in one difference. */
function sourceProblems(sources: readonly TerrainSource[]): Problem[] {
  if (sources.length === 0) {
    return [{ code: 'terrain-empty', path: 'terrain', found: 'no file', expected: 'one file or more' }];
  }
  const [first, ...others] = sources.filter((s) => s.verticalDatum !== null);
  return others.flatMap((s) =>
    s.verticalDatum === first?.verticalDatum
      ? []
      : [
          {
            code: 'terrain-datums-differ',
            path: s.file,
            found: s.verticalDatum ?? '',
            expected: `${first?.verticalDatum}, as in ${first?.file}`,
          },
        ],
  );
}

function terrainOf(placed: readonly PlacedSource[]): GridTerrain {
  const layers = layersOf(placed);
  const grids = layers.map((layer) => layer.placed);
  const about = aboutTerrain(
    layers.flatMap((layer) => layer.sources),
    grids,
  );
  return {
    about,
    notes: () => [...about.notes, ...grids.flatMap(({ grid }) => grid.flaws?.() ?? []).map(flawNote)],
    groundAlong: (line, signal) => groundAlong(grids, line, signal, (file) => otherClass(file, placed, about.accuracy)),
    groundWindow: (wish, signal) => groundWindow(grids, wish, signal),
    groundAt: async (positions: readonly Position[], signal?: AbortSignal) => {
      const points = await groundAt(grids, positions, signal);
      return points.map((point) => {
        const accuracy = otherClass(point.file, placed, about.accuracy);
        return accuracy ? { ...point, accuracy } : point;
      });
    },
  };
}

/** Files on one lattice of cells, read as one grid. */
interface Layer {
  readonly placed: PlacedGrid;
  readonly sources: readonly PlacedSource[];
}

/** Layers, finest first; those of like cells in the order in which their files were given. */
function layersOf(placed: readonly PlacedSource[]): Layer[] {
  const layers = joinLattices(placed.map((p) => p.placed.grid)).map((grid): Layer => {
    const members: readonly ElevationGrid[] = membersOf(grid);
    const sources = placed.filter((p) => members.includes(p.placed.grid));
    const [first] = sources;
    if (!first) throw new Error(`files of ${grid.name}: found none, expected those it was joined from`);
    return { placed: placedGrid(grid, first.placed.projection), sources };
  });
  return layers.sort((a, b) => fineness(a) - fineness(b));
}

/** Cells whose areas differ by less than this are alike: a cell of one size on the map varies that much on the ground. */
const ALIKE = 0.02;

function fineness({ sources }: Layer): number {
  const [first] = sources;
  return first ? Math.round(Math.log(first.cell.width * first.cell.height) / ALIKE) : 0;
}

/** The spread of a file's heights where it is of another class or has other cells than the terrain. */
function otherClass(
  file: string | undefined,
  placed: readonly PlacedSource[],
  usual: HeightAccuracy,
): HeightAccuracy | undefined {
  const source = placed.find((p) => p.placed.grid.name === file);
  if (!source) return undefined;
  const sameCell = Math.abs(Math.log(source.accuracy.cell / usual.cell)) < ALIKE;
  return sameCell && source.accuracy.id === usual.id ? undefined : source.accuracy;
}

/** How files are to be opened. */
export interface TerrainOrder {
  /** What the user said about a file, by its name. */
  readonly answers: Readonly<Record<string, OpenAnswers>>;
  /** What files that were taken along are from, by their own names. */
  readonly recorded?: Readonly<Record<string, HeightsRecord>>;
  /** Name of an accuracy class; null infers one from the files. */
  readonly accuracy: string | null;
  readonly signal?: AbortSignal;
  /** Called before each file with how many are done. */
  readonly onFile?: (done: number) => void;
}

export type TerrainOutcome =
  | {
      readonly kind: 'opened';
      readonly terrain: GridTerrain;
      readonly sources: readonly TerrainSource[];
      readonly grids: readonly OpenedGrid[];
    }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] }
  | { readonly kind: 'question'; readonly questions: readonly Question[] };

/** Opens every file, gathers what only the user can say, and makes one terrain of them. */
export async function openTerrain(files: readonly ByteSource[], order: TerrainOrder): Promise<TerrainOutcome> {
  const grids: OpenedGrid[] = [];
  const questions: Question[] = [];
  const problems: Problem[] = [];
  const sorted = sortedFiles(files);
  if (!Array.isArray(sorted)) return { kind: 'refused', problems: [sorted] };
  for (const [done, { file, beside }] of sorted.entries()) {
    order.onFile?.(done);
    const own = Object.hasOwn(order.answers, file.name) ? order.answers[file.name] : undefined;
    const opened = await openElevation(file, { ...own, ...(order.signal && { signal: order.signal }) }, beside);
    const record = Object.hasOwn(order.recorded ?? {}, file.name) ? order.recorded?.[file.name] : undefined;
    if (opened.kind === 'opened') grids.push(record ? asRecorded(opened.value, record) : opened.value);
    else if (opened.kind === 'question') questions.push(opened.question);
    else problems.push(...opened.problems);
  }
  if (problems.length > 0) return { kind: 'refused', problems };
  if (questions.length > 0) return { kind: 'question', questions };
  const sources = grids.map(sourceOf);
  const terrain = await terrainFromGrids(sources, { accuracy: order.accuracy });
  if (!terrain.ok) return { kind: 'refused', problems: terrain.problems };
  return { kind: 'opened', terrain: terrain.value, sources, grids };
}

/** The elevation files with what lies beside them; why not, where something belongs to none. */
function sortedFiles(files: readonly ByteSource[]): { file: ByteSource; beside: Beside }[] | Problem {
  try {
    return withBeside(files);
  } catch (error) {
    if (error instanceof FileRefusal) return error.problem;
    throw error;
  }
}

function sourceOf(grid: OpenedGrid): TerrainSource {
  const { verticalUnit, verticalDatum, notes } = grid.facts;
  return { file: grid.name, grid, verticalUnit, verticalDatum, notes };
}
