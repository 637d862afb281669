import type { Position } from '../../geodesy/position.ts';
import type { Projection } from '../../geodesy/projection.ts';
import { accuracyOfClass } from '../accuracy/height-accuracy.ts';
import { accuracyNotes, inferHeightAccuracy } from '../accuracy/height-accuracy-inferred.ts';
import type { TerrainSource } from '../grid/grid-files.ts';
import type { HeightAccuracy, TerrainAbout, TerrainNote } from '../grid/ground.ts';
import { cellOnGround, cellSize, type PlacedGrid, placedGrid } from '../grid/placed-grid.ts';

/** An opened file in its place on the ground, with the spread of its heights. */
export interface PlacedSource {
  readonly placed: PlacedGrid;
  readonly source: TerrainSource;
  readonly cell: TerrainAbout['cell'];
  readonly accuracy: HeightAccuracy;
  /** The hint that chose the accuracy class; null when the user did. */
  readonly because: string | null;
}

type Unrated = Omit<PlacedSource, 'accuracy' | 'because'>;

/** Null when the middle of the grid is no place of its CRS. */
export function placedSource(source: TerrainSource, projection: Projection): Unrated | null {
  const placed = placedGrid(source.grid, projection);
  const middle = { column: placed.grid.columns / 2, row: placed.grid.rows / 2 };
  const onGround = cellOnGround(placed, middle);
  return onGround && { placed, source, cell: cellSize(onGround) };
}

/** The spread the user chose, or that the file suggests; null for a class that does not exist. */
export function accuracyOfSource(
  { placed, source, cell }: Unrated,
  chosen: HeightAccuracy | string | null,
): Pick<PlacedSource, 'accuracy' | 'because'> | null {
  const facts = { cell: Math.sqrt(cell.width * cell.height), quantum: placed.grid.quantum };
  if (chosen === null) return inferHeightAccuracy({ files: [source.file], ...facts });
  const accuracy = typeof chosen === 'string' ? accuracyOfClass(chosen, facts) : chosen;
  return accuracy && { accuracy, because: null };
}

/** What is known of a terrain; where files differ, the finest speaks. */
export function aboutTerrain(sources: readonly PlacedSource[], layers: readonly PlacedGrid[]): TerrainAbout {
  const [finest] = sources;
  const [layer] = layers;
  if (!finest || !layer) throw new Error('files of a terrain: found none, expected one or more');
  return {
    files: sources.map((s) => s.source.file),
    crs: layer.projection.name,
    cell: finest.cell,
    size: { columns: layer.grid.columns, rows: layer.grid.rows },
    outline: layers.length === 1 ? outlineOf(layer) : aroundAll(layers.flatMap(outlineOf)),
    verticalUnit: finest.source.verticalUnit,
    verticalDatum: sources.map((s) => s.source.verticalDatum).find((d) => d !== null) ?? null,
    accuracy: finest.accuracy,
    notes: [
      ...sources.flatMap((s) => s.source.notes),
      ...distinct(sources.flatMap((s) => accuracyNotes(s.accuracy, s.because))),
      ...(sources.length > 1 ? severalFiles(sources) : []),
      ...layers.flatMap(shiftNotes),
      ...sources.flatMap(areaNotes),
    ],
  };
}

function distinct(notes: readonly TerrainNote[]): TerrainNote[] {
  const seen = new Map(notes.map((note) => [JSON.stringify(note), note]));
  return [...seen.values()];
}

function severalFiles(sources: readonly PlacedSource[]): TerrainNote[] {
  const notes: TerrainNote[] = [{ code: 'several-files', data: { files: sources.length } }];
  const stated = sources.filter((s) => s.source.verticalDatum !== null).length;
  if (stated > 0 && stated < sources.length) {
    const silent = sources.filter((s) => s.source.verticalDatum === null).map((s) => s.source.file);
    notes.push({ code: 'datum-unstated', data: { files: silent.join(', ') } });
  }
  return notes;
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

const FULL_TURN = 360;

/** The rectangle of longitude and latitude around places; on across the antimeridian where that is shorter. */
function aroundAll(places: readonly Position[]): Position[] {
  const [first] = places;
  if (!first) return [];
  const lons = places.map((p) => p.lon + FULL_TURN * Math.round((first.lon - p.lon) / FULL_TURN));
  const lats = places.map((p) => p.lat);
  const [west, east] = [Math.min(...lons), Math.max(...lons)];
  const [south, north] = [Math.min(...lats), Math.max(...lats)];
  return [
    { lon: west, lat: north },
    { lon: east, lat: north },
    { lon: east, lat: south },
    { lon: west, lat: south },
  ];
}

/** From this uncertainty on, a datum shift is worth a word: it moves the map against the picture, not the heights. */
const SHIFT_WORTH_A_WORD = 1;

function shiftNotes({ projection, grid }: PlacedGrid): TerrainNote[] {
  const { name, accuracy } = projection.shift;
  if (accuracy !== null && accuracy < SHIFT_WORTH_A_WORD) return [];
  const data = { file: grid.name, shift: name, ...(accuracy === null ? {} : { accuracy_m: accuracy }) };
  return [{ code: accuracy === null ? 'datum-shift-unknown' : 'datum-shift', data }];
}

/** A DEM may well reach beyond its CRS's area of use; one that lies this far off, in degrees, more likely names a wrong one. */
const FAR_OFF = 3;

function areaNotes({ placed, source }: PlacedSource): TerrainNote[] {
  const { area, name } = placed.projection;
  const middle = placed.positionAt({ column: placed.grid.columns / 2, row: placed.grid.rows / 2 });
  if (!area || !middle) return [];
  const width = (area.east - area.west + FULL_TURN) % FULL_TURN || FULL_TURN;
  const along = (middle.lon - area.west + FULL_TURN + FAR_OFF) % FULL_TURN;
  const inside =
    along <= width + 2 * FAR_OFF && middle.lat >= area.south - FAR_OFF && middle.lat <= area.north + FAR_OFF;
  return inside
    ? []
    : [{ code: 'outside-crs-area', data: { file: source.file, crs: name, lon: middle.lon, lat: middle.lat } }];
}
