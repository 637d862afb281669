import type { ByteSlice } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Where one block lies in the file and how many rows it unpacks to. */
export interface BlockPlace extends ByteSlice {
  readonly rows: number;
  /** Cells in a row of it: fewer than a whole block's at the end of a row that is cut up. */
  readonly columns: number;
}

/** Rows of uncompressed strips longer than this are cut up, so that a window reads no more of them than it needs. */
const LONG_ROW_BYTES = 32 * 1024;
const PIECE_COLUMNS = 1024;
/** Largest piece of an uncompressed strip that is read at once, bytes. */
const PIECE_BYTES = 256 * 1024;
const UNCOMPRESSED = 1;
/** Bytes that writers add to fill up a word. */
const STRIP_SLACK = 8;
/** No packing makes more of a block than this share of it and its tables: LZW, the worst, writes 12 bits for 8. */
const MOST_PACKED = 2;
const MOST_TABLES = 64 * 1024;

/**
 * The grid of blocks as the reader sees it: tiles and strips as they are, except that a tall uncompressed strip is read in
 * pieces of a few rows, since its rows lie one after the other, and long rows in pieces of some columns.
 */
export class BlockPlaces {
  readonly blockColumns: number;
  readonly blockRows: number;
  readonly across: number;
  readonly down: number;
  readonly #layout: RasterLayout;
  readonly #fileBytes: number;
  readonly #piecesPerStrip: number;
  readonly #rowBytes: number;
  readonly #cellBytes: number;
  /** Whether blocks are pieces of single rows. */
  readonly #cutUp: boolean;

  constructor(layout: RasterLayout, fileBytes: number) {
    this.#layout = layout;
    this.#fileBytes = fileBytes;
    this.#rowBytes = Math.ceil((layout.blockColumns * (layout.separate ? 1 : layout.samples) * layout.bits) / 8);
    const whole = layout.tiled || layout.compression !== UNCOMPRESSED;
    this.#cellBytes = ((layout.separate ? 1 : layout.samples) * layout.bits) / 8;
    this.#cutUp = !whole && this.#rowBytes > LONG_ROW_BYTES && Number.isInteger(this.#cellBytes);
    const pieceRows = whole
      ? layout.blockRows
      : Math.max(1, Math.floor((this.#cutUp ? 0 : PIECE_BYTES) / this.#rowBytes));
    this.blockColumns = this.#cutUp ? PIECE_COLUMNS : layout.blockColumns;
    this.blockRows = Math.min(layout.blockRows, pieceRows);
    this.#piecesPerStrip = Math.ceil(layout.blockRows / this.blockRows);
    this.across = this.#cutUp ? Math.ceil(layout.columns / PIECE_COLUMNS) : layout.across;
    this.down = layout.down * this.#piecesPerStrip;
  }

  /** First row of a row of blocks. */
  top(blockRow: number): number {
    const strip = Math.floor(blockRow / this.#piecesPerStrip);
    return strip * this.#layout.blockRows + (blockRow % this.#piecesPerStrip) * this.blockRows;
  }

  /** The row of blocks that holds a row of cells. */
  blockRowOf(row: number): number {
    const strip = Math.floor(row / this.#layout.blockRows);
    return strip * this.#piecesPerStrip + Math.floor((row % this.#layout.blockRows) / this.blockRows);
  }

  /** Rows of cells that a block holds: a tile is always whole, the last strip is cut off, a piece ends with its strip. */
  rowsOf(blockRow: number): number {
    const { tiled, rows, blockRows } = this.#layout;
    if (tiled) return this.blockRows;
    const top = this.top(blockRow);
    const stripEnd = Math.min(rows, (Math.floor(top / blockRows) + 1) * blockRows);
    return Math.max(0, Math.min(this.blockRows, stripEnd - top));
  }

  /** Where a block lies; null for one that the file leaves out. */
  async place(blockColumn: number, blockRow: number, band: number): Promise<BlockPlace | null> {
    const { separate, offsets, counts, across, down } = this.#layout;
    const stripRow = Math.floor(blockRow / this.#piecesPerStrip);
    const piece = blockRow % this.#piecesPerStrip;
    const index = (separate ? band * across * down : 0) + stripRow * across + (this.#cutUp ? 0 : blockColumn);
    const [offset, length] = await Promise.all([offsets.at(index), counts.at(index)]);
    if (length === 0) return null;
    this.#checkInside(offset, length, index);
    this.#checkPacked(length, index);
    const rows = this.rowsOf(blockRow);
    if (this.#cutUp) return this.#pieceOfRow({ offset, length, index }, piece, blockColumn);
    const columns = this.blockColumns;
    if (this.#piecesPerStrip === 1) return { offset, length, rows, columns };
    this.#checkStripBytes(length, index);
    const from = piece * this.blockRows * this.#rowBytes;
    this.#checkPiece(from + rows * this.#rowBytes, length, index);
    return { offset: offset + from, length: rows * this.#rowBytes, rows, columns };
  }

  #pieceOfRow(
    { offset, length, index }: { offset: number; length: number; index: number },
    row: number,
    blockColumn: number,
  ): BlockPlace {
    this.#checkStripBytes(length, index);
    this.#checkPiece((row + 1) * this.#rowBytes, length, index);
    const first = blockColumn * PIECE_COLUMNS;
    const columns = Math.min(PIECE_COLUMNS, this.#layout.columns - first);
    const from = offset + row * this.#rowBytes + first * this.#cellBytes;
    return { offset: from, length: columns * this.#cellBytes, rows: 1, columns };
  }

  /** A strip of other rows than the directory says would shear everything in it. */
  #checkStripBytes(length: number, index: number): void {
    const most = this.#layout.blockRows * this.#rowBytes + STRIP_SLACK;
    if (length <= most) return;
    refuse({
      code: 'broken-block',
      where: `strip ${index}`,
      found: `${length} bytes`,
      expected: `at most ${most} bytes`,
    });
  }

  /** A block that claims more bytes than it could need is not fetched. */
  #checkPacked(length: number, index: number): void {
    const most = MOST_PACKED * this.#layout.blockRows * this.#rowBytes + MOST_TABLES;
    if (this.#piecesPerStrip > 1 || length <= most) return;
    refuse({
      code: 'broken-block',
      where: `${this.#layout.tiled ? 'tile' : 'strip'} ${index}`,
      found: `${length} bytes`,
      expected: `at most ${most} bytes, however it is packed`,
    });
  }

  #checkPiece(needed: number, length: number, index: number): void {
    if (needed <= length) return;
    refuse({ code: 'broken-block', where: `strip ${index}`, found: `${length} bytes`, expected: `${needed} bytes` });
  }

  #checkInside(offset: number, length: number, index: number): void {
    if (offset > 0 && length > 0 && offset + length <= this.#fileBytes) return;
    refuse({
      code: 'outside-file',
      where: `${this.#layout.tiled ? 'tile' : 'strip'} ${index}`,
      found: `${length} bytes at ${offset}`,
      expected: `a place inside the file's ${this.#fileBytes} bytes; it may have been cut off`,
    });
  }
}
