import type { Position } from '../../geodesy/position.ts';
import { projectionOf } from '../../geodesy/projection.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import type { WrittenGeoKeys } from '../georeference/geo-keys.ts';
import { METRES_PER, type VerticalUnit } from '../georeference/vertical-unit.ts';
import type { Affine, CellWindow, ElevationGrid, HeightBlock } from '../grid/grid.ts';
import { joinLattices, membersOf } from '../grid/mosaic.ts';
import { cellOnGround, cellSize, type PlacedGrid, placedGrid } from '../grid/placed-grid.ts';
import { windowAround } from '../ground/read-window.ts';
import type { GridFacts, OpenedGrid } from '../open/opened-grid.ts';
import { keysForHeights, keysOfCode, keysWithCode, MOST_ACROSS, writeHeights } from './write-heights.ts';

export interface ClipWish {
  /** Places that must lie in the window. */
  readonly around: readonly Position[];
  /** How far beyond the box around the places to go, m. */
  readonly margin: Metres;
}

/** A window of heights as a GeoTIFF, and what stands in it. */
export interface Clip {
  readonly bytes: ArrayBuffer;
  /** The files it was taken from. */
  readonly files: readonly string[];
  readonly columns: number;
  readonly rows: number;
  readonly cell: { readonly width: Metres; readonly height: Metres };
  readonly crs: string;
  /** Unit of the heights; what the files do not state is not stated in the window either. */
  readonly unit: VerticalUnit;
  readonly unitIsStated: boolean;
  readonly datum: string | null;
  readonly noData: number;
  /** Cells without a height. */
  readonly voids: number;
}

export type ClipOutcome =
  | { readonly ok: true; readonly value: Clip }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** More cells than these are not written at once: 40 MB of heights. */
const MOST_CELLS = 10_000_000;

/**
 * A window of an elevation model around places, as it stands in its files: the same cells, heights, CRS, unit and zero of the
 * heights; nothing is resampled, no hole is filled. Of several models the finest that covers every place is taken.
 */
export async function clipElevation(
  opened: readonly OpenedGrid[],
  wish: ClipWish,
  signal?: AbortSignal,
): Promise<ClipOutcome> {
  const layers = await layersOf(opened);
  const covering = layers.flatMap((layer) => {
    const window = windowAround(layer.placed, wish.around, wish.margin);
    return window ? [{ ...layer, window }] : [];
  });
  const [finest] = covering.toSorted(
    (one, other) => one.cell.width * one.cell.height - other.cell.width * other.cell.height,
  );
  if (!finest)
    return refused('clip-outside', opened, 'a place of the plan outside the elevation', 'files that cover all of it');
  const { window } = finest;
  const cells = window.columns * window.rows;
  if (cells > MOST_CELLS || Math.max(window.columns, window.rows) > MOST_ACROSS) {
    const found = `${window.columns} × ${window.rows} cells`;
    return refused('clip-too-large', opened, found, `${MOST_CELLS} cells or fewer: a smaller margin`);
  }
  const block = await finest.placed.grid.read(window, signal);
  return written(finest, block);
}

/** The keys that place a grid of some opened files on the map, by the grid's name; null where its CRS has no keys and no code. */
export function keysOfGrid(opened: readonly OpenedGrid[], name: string): WrittenGeoKeys | null {
  const grid = joinLattices(opened).find((each) => each.name === name);
  if (!grid) throw new Error(`grid ${name}: found none, expected one of the opened files`);
  const [first]: readonly ElevationGrid[] = membersOf(grid);
  const facts = opened.find((each) => each === first)?.facts;
  return facts ? keysOf(grid, facts) : null;
}

interface Layer {
  readonly placed: PlacedGrid;
  readonly cell: Clip['cell'];
  readonly facts: GridFacts;
}

/** The models of some files, each on its own lattice of cells, with what the first file of each says. */
async function layersOf(opened: readonly OpenedGrid[]): Promise<Layer[]> {
  const layers: Layer[] = [];
  for (const grid of joinLattices(opened)) {
    const [first]: readonly ElevationGrid[] = membersOf(grid);
    const facts = opened.find((each) => each === first)?.facts;
    const projection = await projectionOf(grid.crs);
    if (facts === undefined || !projection.ok) throw new Error(`${grid.name}: found no opened file, expected one`);
    const placed = placedGrid(grid, projection.value);
    const middle = cellOnGround(placed, { column: grid.columns / 2, row: grid.rows / 2 });
    if (middle) layers.push({ placed, facts, cell: cellSize(middle) });
  }
  return layers;
}

function written({ placed, facts, cell }: Layer, block: HeightBlock): ClipOutcome {
  const { grid, projection } = placed;
  const keys = keysOf(grid, facts);
  const problemFiles = [grid];
  if (keys === null)
    return refused('clip-crs', problemFiles, 'a projection without a code', 'a file with its CRS in GeoKeys');
  const unit = writtenUnit(facts);
  const unitIsStated = facts.unitEvidence !== 'assumed';
  const { values, noData, voids } = valuesOf(block, METRES_PER[unit], facts.noData);
  const bytes = writeHeights({
    columns: block.columns,
    rows: block.rows,
    values,
    affine: movedTo(grid.affine, block),
    keys: keysForHeights(keys, unitIsStated ? unit : null),
    noData,
  });
  if (bytes === null) {
    return refused('clip-crs', problemFiles, 'a CRS in more words than there is room for', 'a CRS by its EPSG code');
  }
  const value: Clip = {
    bytes,
    files: membersOf(grid).map(({ name }) => name),
    columns: block.columns,
    rows: block.rows,
    cell,
    crs: projection.name,
    unit,
    unitIsStated,
    datum: facts.verticalDatum,
    noData,
    voids,
  };
  return { ok: true, value };
}

/** The keys of the file itself where they state its CRS, else those of the code that the user gave; null where there is none. */
export function keysOf({ crs }: ElevationGrid, { geoKeys, statesCrs, geographic }: GridFacts) {
  if (geoKeys !== null && statesCrs) return geoKeys;
  if (crs.kind !== 'epsg') return null;
  return geoKeys === null ? keysOfCode(crs.code, { geographic }) : keysWithCode(geoKeys, crs.code, { geographic });
}

/** Centimetres and decimetres have no place in the keys of every reader: those heights are written in metres. */
export function writtenUnit({ verticalUnit }: GridFacts): VerticalUnit {
  return verticalUnit === 'centimetre' || verticalUnit === 'decimetre' ? 'metre' : verticalUnit;
}

/** What stands for "no height" where the file's own number cannot: below any ground, in any unit. */
const USUAL_NO_DATA = -9999;
/** A height in its file's unit that was turned into metres and back may be off by this share. */
const ROUNDING = 4 * Number.EPSILON;

/** Heights in their unit: in 32 bits where that says the same, else in 64. */
function valuesOf({ heights, known }: HeightBlock, metres: number, stated: number | null) {
  const inUnit = Float64Array.from(heights, (height) => height / metres);
  const narrow = Float32Array.from(inUnit);
  let exact = true;
  let taken = false;
  let voids = 0;
  for (let k = 0; k < inUnit.length; k += 1) {
    if (known[k] === 0) {
      voids += 1;
      continue;
    }
    const value = inUnit[k] as number;
    const short = narrow[k] as number;
    if (Math.abs(short - value) > ROUNDING * Math.abs(value)) exact = false;
    if (short === stated || value === stated) taken = true;
  }
  const usable = stated !== null && Number.isFinite(stated) && Math.fround(stated) === stated && !taken;
  const noData = usable ? stated : USUAL_NO_DATA;
  const values = exact ? narrow : inUnit;
  for (let k = 0; k < values.length; k += 1) if (known[k] === 0) values[k] = noData;
  return { values, noData, voids };
}

function movedTo({ a, b, c, d, e, f }: Affine, { column, row }: CellWindow): Affine {
  return { a, b, c: c + a * column + b * row, d, e, f: f + d * column + e * row };
}

function refused(
  code: string,
  files: readonly { readonly name: string }[],
  found: string,
  expected: string,
): ClipOutcome {
  return { ok: false, problems: [{ code, path: files.map(({ name }) => name).join(' + '), found, expected }] };
}
