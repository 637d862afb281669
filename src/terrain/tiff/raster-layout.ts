import { refuse } from '../bytes/file-refusal.ts';
import type { TagNumbers, TagValues } from './tag-values.ts';
import { TAG, tagName } from './tiff-tags.ts';

export type SampleKind = 'uint' | 'int' | 'float';

/** How the cells of one directory lie in the file, checked against the file's size before any of them is read. */
export interface RasterLayout {
  readonly columns: number;
  readonly rows: number;
  readonly tiled: boolean;
  /** Size of a tile, or of a strip as the directory cuts it. */
  readonly blockColumns: number;
  readonly blockRows: number;
  /** How many blocks lie side by side and one below the other. */
  readonly across: number;
  readonly down: number;
  /** Samples of a cell, and whether each band has blocks of its own. */
  readonly samples: number;
  readonly separate: boolean;
  readonly bits: number;
  readonly kind: SampleKind;
  readonly compression: number;
  readonly predictor: number;
  /** Further packing around LERC blobs; 0 where there is none. */
  readonly lercWrapping: number;
  readonly offsets: TagNumbers;
  readonly counts: TagNumbers;
}

const MOST_CELLS_ACROSS = 1_000_000;
const MOST_SAMPLES = 16;
const MOST_BLOCKS = 4_000_000;
/** TIFF asks for multiples of 16; some writers go below, but none makes a tile of a few cells. */
const LEAST_TILE_SIDE = 8;
const MOST_TILE_SIDE = 8192;
const UNSET_ROWS = 0xffffffff;
const SEPARATE_BANDS = 2;
const KINDS: Readonly<Record<number, SampleKind>> = { 1: 'uint', 2: 'int', 3: 'float', 4: 'uint' };

export async function readLayout(tags: TagValues): Promise<RasterLayout> {
  const columns = await sizeTag(tags, TAG.ImageWidth);
  const rows = await sizeTag(tags, TAG.ImageLength);
  await checkUsualOrder(tags);
  const samples = await readSamples(tags);
  const separate = samples > 1 && (await readPlanar(tags)) === SEPARATE_BANDS;
  const cut = await readCut(tags, columns, rows);
  const across = Math.ceil(columns / cut.blockColumns);
  const down = Math.ceil(rows / cut.blockRows);
  const lists = readLists(tags, cut.tiled, across * down * (separate ? samples : 1));
  return {
    columns,
    rows,
    ...cut,
    across,
    down,
    samples,
    separate,
    ...(await readSampleForm(tags)),
    compression: await tags.number(TAG.Compression, 1),
    predictor: await tags.number(TAG.Predictor, 1),
    lercWrapping: (await tags.numbers(TAG.LercParameters))?.[1] ?? 0,
    ...lists,
  };
}

async function sizeTag(tags: TagValues, tag: number): Promise<number> {
  const value = await tags.number(tag, 0);
  if (Number.isInteger(value) && value >= 1 && value <= MOST_CELLS_ACROSS) return value;
  return refuse({
    code: 'raster-size',
    where: tagName(tag),
    found: value,
    expected: `1 to ${MOST_CELLS_ACROSS} cells`,
  });
}

/** Rows from the top, columns from the left, high bits first: readers do not agree on what else these tags may mean. */
async function checkUsualOrder(tags: TagValues): Promise<void> {
  for (const tag of [TAG.Orientation, TAG.FillOrder]) {
    const value = await tags.number(tag, 1);
    if (value !== 1) refuse({ code: 'cell-order', where: tagName(tag), found: value, expected: '1, as usual' });
  }
}

async function readSamples(tags: TagValues): Promise<number> {
  const samples = await tags.number(TAG.SamplesPerPixel, 1);
  if (Number.isInteger(samples) && samples >= 1 && samples <= MOST_SAMPLES) return samples;
  return refuse({
    code: 'sample-count',
    where: 'SamplesPerPixel',
    found: samples,
    expected: `1 to ${MOST_SAMPLES} samples a cell`,
  });
}

async function readPlanar(tags: TagValues): Promise<number> {
  const planar = await tags.number(TAG.PlanarConfiguration, 1);
  if (planar === 1 || planar === SEPARATE_BANDS) return planar;
  return refuse({ code: 'planar-configuration', where: 'PlanarConfiguration', found: planar, expected: '1 or 2' });
}

async function readSampleForm(tags: TagValues): Promise<{ bits: number; kind: SampleKind }> {
  const bits = oneValue('BitsPerSample', (await tags.numbers(TAG.BitsPerSample)) ?? [1]);
  const format = oneValue('SampleFormat', (await tags.numbers(TAG.SampleFormat)) ?? [1]);
  const kind = KINDS[format];
  if (kind === undefined) {
    refuse({
      code: 'sample-format',
      where: 'SampleFormat',
      found: format,
      expected: 'whole or floating-point numbers',
    });
  }
  return { bits, kind };
}

function oneValue(where: string, values: readonly number[]): number {
  const [first] = values;
  if (first !== undefined && values.every((value) => value === first)) return first;
  return refuse({
    code: 'mixed-samples',
    where,
    found: values.slice(0, MOST_SAMPLES).join(', '),
    expected: 'the same for every band',
  });
}

type Cut = Pick<RasterLayout, 'tiled' | 'blockColumns' | 'blockRows'>;

async function readCut(tags: TagValues, columns: number, rows: number): Promise<Cut> {
  const tiled = tags.has(TAG.TileWidth) || tags.has(TAG.TileLength) || tags.has(TAG.TileOffsets);
  if (!tiled) {
    const stated = await tags.number(TAG.RowsPerStrip, UNSET_ROWS);
    if (stated < 1) {
      refuse({ code: 'strip-size', where: 'RowsPerStrip', found: stated, expected: 'at least one row' });
    }
    return { tiled, blockColumns: columns, blockRows: Math.min(stated, rows) };
  }
  const blockColumns = await tileSide(tags, TAG.TileWidth);
  const blockRows = await tileSide(tags, TAG.TileLength);
  return { tiled, blockColumns, blockRows };
}

async function tileSide(tags: TagValues, tag: number): Promise<number> {
  const side = await tags.number(tag, 0);
  if (Number.isInteger(side) && side >= LEAST_TILE_SIDE && side <= MOST_TILE_SIDE) return side;
  return refuse({
    code: 'tile-size',
    where: tagName(tag),
    found: side,
    expected: `${LEAST_TILE_SIDE} to ${MOST_TILE_SIDE} cells`,
  });
}

function readLists(tags: TagValues, tiled: boolean, blocks: number): { offsets: TagNumbers; counts: TagNumbers } {
  const [offsetTag, countTag] = tiled ? [TAG.TileOffsets, TAG.TileByteCounts] : [TAG.StripOffsets, TAG.StripByteCounts];
  if (blocks > MOST_BLOCKS) {
    refuse({ code: 'too-many-blocks', where: tagName(offsetTag), found: blocks, expected: `at most ${MOST_BLOCKS}` });
  }
  return { offsets: listOf(tags, offsetTag, blocks), counts: listOf(tags, countTag, blocks) };
}

function listOf(tags: TagValues, tag: number, blocks: number): TagNumbers {
  const list = tags.list(tag);
  if (list?.count === blocks) return list;
  return refuse({
    code: 'block-count',
    where: tagName(tag),
    found: list === undefined ? 'no such tag' : `${list.count} entries`,
    expected: `${blocks}, one a ${tag === TAG.TileOffsets || tag === TAG.TileByteCounts ? 'tile' : 'strip'}`,
  });
}
