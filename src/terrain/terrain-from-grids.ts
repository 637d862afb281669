import type { Position } from '../geodesy/position.ts';
import { projectionOf } from '../geodesy/projection.ts';
import type { Outcome, Problem } from '../units/outcome.ts';
import type { HeightAccuracy, Terrain, TerrainAbout, TerrainNote } from './ground.ts';
import { groundAlong } from './ground-along.ts';
import { groundAt } from './ground-at.ts';
import { inferHeightAccuracy } from './height-accuracy-inferred.ts';
import { accuracyNotes } from './height-accuracy-notes.ts';
import { cellOnGround, cellSize, type PlacedGrid, placedGrid } from './placed-grid.ts';
import type { TerrainSource } from './terrain-source.ts';

export interface TerrainChoice {
  /** The user's class or constants; null infers them from the file. */
  readonly accuracy: HeightAccuracy | null;
}

/** A terrain of one or several opened files: the finest grid that has a height decides. */
export async function terrainFromGrids(
  sources: readonly TerrainSource[],
  choice: TerrainChoice = { accuracy: null },
): Promise<Outcome<Terrain>> {
  if (sources.length === 0) return { ok: false, problems: [NO_FILE] };
  const placed: SizedGrid[] = [];
  const problems: Problem[] = [...datumProblems(sources)];
  for (const source of sources) {
    const projection = await projectionOf(source.grid.crs);
    if (!projection.ok) problems.push(...projection.problems.map((p) => ({ ...p, path: source.file })));
    else placed.push(sized(placedGrid(source.grid, projection.value), source));
  }
  if (problems.length > 0) return { ok: false, problems };
  placed.sort((a, b) => areaOf(a) - areaOf(b));
  const grids = placed.map((p) => p.placed);
  const about = aboutOf(placed, choice);
  return {
    ok: true,
    value: {
      about,
      groundAlong: (line, signal) => groundAlong(grids, line, signal),
      groundAt: (positions, signal) => groundAt(grids, positions, signal),
    },
  };
}

const NO_FILE: Problem = { code: 'terrain-empty', path: 'terrain', found: 'no file', expected: 'one file or more' };

/** Heights above different zero levels may not stand in one difference. */
function datumProblems(sources: readonly TerrainSource[]): Problem[] {
  const [first, ...others] = sources.filter((s) => s.verticalDatum !== null);
  if (!first) return [];
  return others
    .filter((s) => s.verticalDatum !== first.verticalDatum)
    .map((s) => ({
      code: 'terrain-datums-differ',
      path: s.file,
      found: s.verticalDatum ?? '',
      expected: `${first.verticalDatum}, as in ${first.file}`,
    }));
}

interface SizedGrid {
  readonly placed: PlacedGrid;
  readonly source: TerrainSource;
  readonly cell: TerrainAbout['cell'];
}

const areaOf = ({ cell }: SizedGrid): number => cell.width * cell.height;

function sized(placed: PlacedGrid, source: TerrainSource): SizedGrid {
  const middle = { column: placed.grid.columns / 2, row: placed.grid.rows / 2 };
  const onGround = cellOnGround(placed, middle);
  if (!onGround) throw new Error(`middle of ${source.file}: found no place in its CRS, expected one`);
  return { placed, source, cell: cellSize(onGround) };
}

function aboutOf(grids: readonly SizedGrid[], choice: TerrainChoice): TerrainAbout {
  const [finest] = grids;
  if (!finest) throw new Error('grids of a terrain: found none, expected one or more');
  const files = grids.map((g) => g.source.file);
  const cell = Math.sqrt(areaOf(finest));
  const hints = { files, cell, quantum: finest.placed.grid.quantum };
  const inferred = choice.accuracy === null ? inferHeightAccuracy(hints) : null;
  const accuracy = inferred?.accuracy ?? choice.accuracy ?? inferHeightAccuracy(hints).accuracy;
  return {
    files,
    crs: finest.placed.projection.name,
    cell: finest.cell,
    size: { columns: finest.placed.grid.columns, rows: finest.placed.grid.rows },
    outline: outlineOf(finest.placed),
    verticalUnit: finest.source.verticalUnit,
    verticalDatum: grids.map((g) => g.source.verticalDatum).find((d) => d !== null) ?? null,
    accuracy,
    notes: [
      ...grids.flatMap((g) => g.source.notes),
      ...accuracyNotes(accuracy, inferred?.because ?? null),
      ...grids.flatMap(({ placed }) => shiftNotes(placed)),
    ],
  };
}

/** Corners of a grid in order around it; those its CRS has no place for are left out. */
function outlineOf(placed: PlacedGrid): Position[] {
  const { columns, rows } = placed.grid;
  const corners = [
    { column: 0, row: 0 },
    { column: columns, row: 0 },
    { column: columns, row: rows },
    { column: 0, row: rows },
  ];
  return corners.flatMap((corner) => placed.positionAt(corner) ?? []);
}

/** From this uncertainty on, a datum shift is worth a word: it moves the map against the picture, not the heights. */
const SHIFT_WORTH_A_WORD = 1;

function shiftNotes({ projection, grid }: PlacedGrid): TerrainNote[] {
  const { name, accuracy } = projection.shift;
  if (accuracy !== null && accuracy < SHIFT_WORTH_A_WORD) return [];
  const data = { file: grid.name, shift: name, ...(accuracy === null ? {} : { accuracy_m: accuracy }) };
  return [{ code: accuracy === null ? 'datum-shift-unknown' : 'datum-shift', data }];
}
