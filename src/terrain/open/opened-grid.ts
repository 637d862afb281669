import type { Metres } from '../../units/quantity.ts';
import type { WrittenGeoKeys } from '../georeference/geo-keys.ts';
import type { HeightUnit, StatedUnit } from '../georeference/vertical-unit.ts';
import type { ElevationGrid } from '../grid/grid.ts';
import type { TerrainNote } from '../grid/ground.ts';

/** What an opened file says about itself, for the user and for the report. */
export interface GridFacts {
  readonly format: 'GeoTIFF' | 'ESRI ASCII grid' | '.hgt' | '.xyz';
  readonly fileBytes: number;
  /** Such as `32-bit floating point`. */
  readonly samples: string;
  readonly compression: string;
  readonly cellsAre: 'area' | 'point';
  readonly verticalUnit: HeightUnit;
  readonly unitEvidence: StatedUnit['evidence'] | 'answered' | 'format';
  /** Vertical CRS of the heights, such as `EPSG:5703`, or the file's own name for it; null where it says nothing. */
  readonly verticalDatum: string | null;
  /** The stored number that means "no height"; null where there is none. */
  readonly noData: number | null;
  readonly band: number;
  readonly bands: number;
  /** Whether the cells lie in degrees. */
  readonly geographic: boolean;
  /** The keys in which the file states its coordinates and heights; null where it has none. */
  readonly geoKeys: WrittenGeoKeys | null;
  /** Whether the CRS of the cells is the file's own word; otherwise the user's. */
  readonly statesCrs: boolean;
  readonly notes: readonly TerrainNote[];
}

/** An elevation grid opened from a file, with what the file says about itself. */
export interface OpenedGrid extends ElevationGrid {
  readonly facts: GridFacts;
}

/** What is known of a file besides its heights: with it, tiles of the file give the very answers that the file gives. */
export interface HeightsRecord extends Pick<GridFacts, 'verticalUnit' | 'unitEvidence' | 'verticalDatum' | 'notes'> {
  /** The file that the heights are from. */
  readonly name: string;
  /** Step between its heights where they are whole numbers, m. */
  readonly quantum: Metres;
}

/** Tiles that were taken along from a file, as the file that they are from. */
export function asRecorded(tiles: OpenedGrid, record: HeightsRecord): OpenedGrid {
  const { columns, rows, affine, crs, overviews } = tiles;
  const { name, quantum, verticalUnit, unitEvidence, verticalDatum, notes } = record;
  return {
    name,
    columns,
    rows,
    affine,
    crs,
    overviews,
    quantum,
    facts: { ...tiles.facts, verticalUnit, unitEvidence, verticalDatum, notes },
    read: (window, signal) => tiles.read(window, signal),
    flaws: () => tiles.flaws?.() ?? [],
  };
}
