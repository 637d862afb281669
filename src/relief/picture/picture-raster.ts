import type { ByteSource } from '../../terrain/bytes/byte-source.ts';
import { refuse } from '../../terrain/bytes/file-refusal.ts';
import { unpackBlock } from '../../terrain/codec/block-codec.ts';
import { undoDifferences } from '../../terrain/codec/predictor.ts';
import type { CellWindow } from '../../terrain/grid/grid.ts';
import { type BlockPlace, BlockPlaces } from '../../terrain/tiff/block-places.ts';
import type { VoidMask } from '../../terrain/tiff/void-mask.ts';
import type { BlockCache } from '../levels/block-cache.ts';
import { type DecodeJpeg, jpegSize, wholeJpeg } from './jpeg-size.ts';
import { type ColourRule, JPEG, type PictureLayout } from './picture-layout.ts';
import { applyMask } from './picture-masks.ts';
import { clearPixels, copyPixels, type Pixels } from './pixels.ts';

export interface PictureRasterParts {
  readonly source: ByteSource;
  readonly layout: PictureLayout;
  readonly cache: BlockCache<Pixels>;
  readonly decodeJpeg: DecodeJpeg;
  /** Which pixels are part of the picture; null for all. */
  readonly mask: VoidMask | null;
}

const DIFFERENCES = 2;

/** One directory of a picture file as windows of pixels. */
export class PictureRaster {
  readonly columns: number;
  readonly rows: number;
  readonly #parts: PictureRasterParts;
  readonly #places: BlockPlaces;

  constructor(parts: PictureRasterParts) {
    this.#parts = parts;
    this.#places = new BlockPlaces(parts.layout.raster, parts.source.size);
    this.columns = parts.layout.raster.columns;
    this.rows = parts.layout.raster.rows;
  }

  /** Pixels of a window inside the raster. */
  async read(window: CellWindow): Promise<Pixels> {
    const out = clearPixels(window);
    const places = this.#places;
    const lastRow = places.blockRowOf(window.row + window.rows - 1);
    const lastColumn = Math.floor((window.column + window.columns - 1) / places.blockColumns);
    for (let row = places.blockRowOf(window.row); row <= lastRow; row += 1) {
      for (let column = Math.floor(window.column / places.blockColumns); column <= lastColumn; column += 1) {
        copyPixels(await this.#parts.cache.take(this, `${column}/${row}`, () => this.#block(column, row)), out);
      }
    }
    if (this.#parts.mask) await applyMask(this.#parts.mask, out);
    return out;
  }

  async #block(column: number, row: number): Promise<Pixels> {
    const { raster } = this.#parts.layout;
    const window = {
      column: column * this.#places.blockColumns,
      row: this.#places.top(row),
      columns: this.#places.blockColumns,
      rows: this.#places.rowsOf(row),
    };
    const bands = raster.separate ? raster.samples : 1;
    const packed: Uint8Array[] = [];
    for (let band = 0; band < bands; band += 1) {
      const place = await this.#places.place(column, row, band);
      if (!place) return clearPixels(window);
      packed.push(await this.#packed(place));
    }
    return { ...window, rgba: await this.#pixels(packed, window.columns, window.rows) };
  }

  async #packed(place: BlockPlace): Promise<Uint8Array> {
    const [bytes] = await this.#parts.source.read([place]);
    return bytes ?? new Uint8Array(0);
  }

  async #pixels(packed: readonly Uint8Array[], columns: number, rows: number): Promise<Uint8ClampedArray<ArrayBuffer>> {
    const { layout } = this.#parts;
    const { raster, colours } = layout;
    if (raster.compression === JPEG && colours.kind === 'decoded') return this.#decoded(packed, columns, rows);
    const samples = raster.separate ? 1 : raster.samples;
    const planes = packed.map((bytes) => {
      const [needed, most] = [columns * rows * samples, columns * raster.blockRows * samples];
      const plain = unpackBlock(raster.compression, bytes, { needed, most });
      if (raster.predictor === DIFFERENCES) undoDifferences(plain, { columns, rows, samples, bits: 8 });
      return plain;
    });
    const bytes = planes.length === 1 ? (planes[0] ?? new Uint8Array(0)) : interleave(planes);
    return colourPixels({ bytes, perPixel: raster.samples, count: columns * rows }, colours);
  }

  async #decoded(
    packed: readonly Uint8Array[],
    columns: number,
    rows: number,
  ): Promise<Uint8ClampedArray<ArrayBuffer>> {
    const { layout, decodeJpeg } = this.#parts;
    const file = wholeJpeg(packed[0] ?? new Uint8Array(0), layout.jpegTables, layout.jpegIsRgb);
    const size = jpegSize(file);
    if (size?.columns === columns && size.rows === rows) return (await decodeJpeg(file)).rgba;
    return refuse({
      code: 'broken-block',
      where: 'JPEG block',
      found: size ? `${size.columns} × ${size.rows} pixels` : 'no frame header',
      expected: `${columns} × ${rows} pixels`,
    });
  }
}

function interleave(planes: readonly Uint8Array[]): Uint8Array {
  const count = planes[0]?.length ?? 0;
  const bytes = new Uint8Array(count * planes.length);
  planes.forEach((plane, band) => {
    for (let at = 0; at < count; at += 1) bytes[at * planes.length + band] = plane[at] ?? 0;
  });
  return bytes;
}

/** Interleaved 8-bit samples of `count` pixels. */
interface PictureSamples {
  readonly bytes: Uint8Array;
  readonly perPixel: number;
  readonly count: number;
}

/** Turns stored samples into red, green, blue and opacity. */
function colourPixels({ bytes, perPixel, count }: PictureSamples, rule: ColourRule): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray(4 * count);
  for (let pixel = 0; pixel < count; pixel += 1) {
    const from = pixel * perPixel;
    const to = 4 * pixel;
    const clear = writeColour(bytes, from, rgba, to, rule);
    rgba[to + 3] = clear ? 0 : rule.alpha === null ? 255 : (bytes[from + rule.alpha] ?? 255);
  }
  return rgba;
}

/** Writes the colour and says whether the samples mean "no picture here". */
function writeColour(bytes: Uint8Array, from: number, rgba: Uint8ClampedArray, to: number, rule: ColourRule): boolean {
  const first = bytes[from] ?? 0;
  if (rule.kind === 'rgb') {
    rgba[to] = first;
    rgba[to + 1] = bytes[from + 1] ?? 0;
    rgba[to + 2] = bytes[from + 2] ?? 0;
    return first === rule.noData && bytes[from + 1] === rule.noData && bytes[from + 2] === rule.noData;
  }
  for (let channel = 0; channel < 3; channel += 1) {
    const grey = rule.kind === 'grey-inverted' ? 255 - first : first;
    rgba[to + channel] = rule.kind === 'palette' ? (rule.palette[3 * first + channel] ?? 0) : grey;
  }
  return first === rule.noData;
}
