import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import type { OpenAnswers, OpenOutcome } from '../georeference/open-answers.ts';
import { BlockCache } from '../tiff/block-cache.ts';
import { BlockStore } from '../tiff/block-store.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import { StoredGrid } from '../tiff/stored-grid.ts';
import type { TagNumbers } from '../tiff/tag-values.ts';
import { openOutcome } from './open-failure.ts';
import { DEFAULT_MEMORY } from './open-geotiff.ts';
import type { OpenedGrid } from './opened-grid.ts';

/** Latitude and longitude of the south-west corner, as the names of such files give them. */
const NAME = /([ns])(\d{2})([ew])(\d{3})[^/\\]*\.hgt$/i;
/** Samples along a side, both edges among them: three seconds, one second, and one second north of 50° in half as many columns. */
const SIDES: readonly (readonly [columns: number, rows: number])[] = [
  [1201, 1201],
  [3601, 3601],
  [1801, 3601],
];
const VOID = -32768;
const WINDOW_CELL_BYTES = 9;

export const isHgtName = (name: string): boolean => /\.hgt$/i.test(name);

/**
 * Opens a height file of the shuttle's radar mission: whole metres of 16 bits, high byte first, from the north-west, a sample on
 * each edge of its degree. Source: NASA, SRTM Topography documentation, version 2.1, sections 2 and 3, from memory.
 */
export function openHgt(source: ByteSource, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, async () => hgtGrid(source, answers), answers.signal);
}

function hgtGrid(source: ByteSource, answers: OpenAnswers): OpenedGrid {
  const [, ns = '', lat = '', ew = '', lon = ''] = NAME.exec(source.name) ?? [];
  if (lat === '') {
    const expected = 'a name that holds its corner, such as N38W123.hgt: it says nowhere else where it lies';
    refuse({ code: 'hgt-name', where: '', found: source.name, expected });
  }
  const size = SIDES.find(([columns, rows]) => 2 * columns * rows === source.size);
  if (size === undefined) {
    const expected = `${SIDES.map(([c, r]) => 2 * c * r).join(', ')} bytes; it may have been cut off`;
    return refuse({ code: 'hgt-size', where: '', found: `${source.size} bytes`, expected });
  }
  const [columns, rows] = size;
  const south = Number(lat) * (ns.toLowerCase() === 's' ? -1 : 1);
  const west = Number(lon) * (ew.toLowerCase() === 'w' ? -1 : 1);
  const [a, e] = [1 / (columns - 1), -1 / (rows - 1)];
  const rule = { noData: VOID, factor: 1, add: 0 };
  const layout = layoutOf(columns, rows, source.size);
  const memory = answers.memory ?? DEFAULT_MEMORY;
  const store = new BlockStore({
    name: 'hgt',
    source: afterFirstByte(source),
    layout,
    littleEndian: false,
    band: 0,
    rule,
    cache: new BlockCache(memory),
  });
  const grid = new StoredGrid({
    name: source.name,
    columns,
    rows,
    affine: { a, b: 0, c: west - a / 2, d: 0, e, f: south + 1 - e / 2 },
    crs: { kind: 'epsg', code: 4326 },
    overviews: [],
    quantum: 1,
    store,
    rule,
    mask: null,
    wide: false,
    mostCells: Math.floor(memory / WINDOW_CELL_BYTES),
  });
  return Object.assign(grid, {
    facts: {
      format: '.hgt' as const,
      fileBytes: source.size,
      samples: '16-bit signed whole numbers',
      compression: 'none',
      cellsAre: 'point' as const,
      verticalUnit: 'metre' as const,
      unitEvidence: 'format' as const,
      verticalDatum: 'EGM96 height',
      noData: VOID,
      band: 1,
      bands: 1,
      geographic: true,
      geoKeys: null,
      statesCrs: false,
      notes: [],
    },
  });
}

/** One uncompressed strip of the whole file, which the reader takes in pieces. */
function layoutOf(columns: number, rows: number, bytes: number): RasterLayout {
  const one = (value: number): TagNumbers => ({
    count: 1,
    at: async () => value,
    run: async (_, count) => Array.from({ length: count }, () => value),
  });
  return {
    columns,
    rows,
    tiled: false,
    blockColumns: columns,
    blockRows: rows,
    across: 1,
    down: 1,
    samples: 1,
    separate: false,
    bits: 16,
    kind: 'int',
    compression: 1,
    predictor: 1,
    lercWrapping: 0,
    offsets: one(1),
    counts: one(bytes),
  };
}

/** A block at the very start of a file would be one that a directory leaves out: everything is counted from 1. */
function afterFirstByte(source: ByteSource): ByteSource {
  return {
    name: source.name,
    size: source.size + 1,
    read: (slices, signal) =>
      source.read(
        slices.map(({ offset, length }) => ({ offset: length === 0 ? 0 : offset - 1, length })),
        signal,
      ),
  };
}
