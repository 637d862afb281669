import type { Problem } from '../../units/outcome.ts';
import type { ByteSource } from '../bytes/byte-source.ts';
import { FileRefusal } from '../bytes/file-refusal.ts';
import type { Samples } from '../codec/samples.ts';
import type { BlockCache, DecodedBlock } from './block-cache.ts';
import { type BlockPlace, BlockPlaces } from './block-places.ts';
import { decodeSamples } from './block-samples.ts';
import { type BlockExtent, type HeightRule, heightsFromSamples } from './heights-from-samples.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Column and row of a block among the blocks of its directory. */
export interface BlockIndex {
  readonly column: number;
  readonly row: number;
}

/** What a block store reads from. `name` tells the directories of one file apart in the cache. */
export interface BlockStoreParts {
  readonly name: string;
  readonly source: ByteSource;
  readonly layout: RasterLayout;
  readonly littleEndian: boolean;
  readonly band: number;
  readonly rule: HeightRule;
  readonly cache: BlockCache;
}

/** A block as it lies in the file. */
interface PackedBlock {
  readonly bytes: Uint8Array;
  readonly rows: number;
  readonly columns: number;
}

/** What becomes of a block that the file holds but that cannot be unpacked. */
export type EachBroken = (block: BlockIndex, problem: Problem) => void;

/** Refusals of a single block, of which the rest of the file knows nothing. */
const BROKEN: readonly string[] = ['broken-block', 'outside-file'];

function brokenBlock(name: string, error: unknown): Problem {
  if (error instanceof FileRefusal) return { ...error.problem, path: name };
  const found = error instanceof Error ? error.message : String(error);
  return { code: 'broken-block', path: name, found, expected: 'a block that can be unpacked' };
}

/** Packed bytes that are asked for at once; between two batches a read can be given up. */
const BATCH_BYTES = 2 * 1024 * 1024;

/** The blocks of one directory as heights, read from the file or kept from before. */
export class BlockStore {
  readonly places: BlockPlaces;
  readonly #parts: BlockStoreParts;

  constructor(parts: BlockStoreParts) {
    this.#parts = parts;
    this.places = new BlockPlaces(parts.layout, parts.source.size);
  }

  /** Hands every block to `use` once, in no set order; null for one that the file leaves out. A broken one goes to `broken`. */
  async each(
    blocks: readonly BlockIndex[],
    { use, broken }: { use: (block: BlockIndex, decoded: DecodedBlock | null) => void; broken: EachBroken },
    signal?: AbortSignal,
  ): Promise<void> {
    const { cache } = this.#parts;
    const missing: BlockIndex[] = [];
    for (const block of blocks) {
      const kept = cache.get(this.#key(block));
      if (kept === undefined) missing.push(block);
      else use(block, kept);
    }
    // Another read may have unpacked the same block while this one waited for its bytes.
    const unpack = (block: BlockIndex, packed: PackedBlock): DecodedBlock =>
      cache.get(this.#key(block)) ?? this.#decoded(block, this.#samples(packed));
    await this.#eachPacked(missing, { unpack, use, broken }, signal);
  }

  /** The stored numbers of blocks. */
  async eachSamples(
    blocks: readonly BlockIndex[],
    { use, broken }: { use: (block: BlockIndex, samples: Samples | null) => void; broken: EachBroken },
    signal?: AbortSignal,
  ): Promise<void> {
    await this.#eachPacked(blocks, { unpack: (_, packed) => this.#samples(packed), use, broken }, signal);
  }

  /** Reads blocks in batches. What a block's bytes cannot be unpacked for is its own fault; what cannot be read fails them all. */
  async #eachPacked<T>(
    wanted: readonly BlockIndex[],
    each: {
      unpack: (block: BlockIndex, packed: PackedBlock) => T;
      use: (block: BlockIndex, unpacked: T | null) => void;
      broken: EachBroken;
    },
    signal?: AbortSignal,
  ): Promise<void> {
    const { source } = this.#parts;
    const blocks: BlockIndex[] = [];
    const places: (BlockPlace | null)[] = [];
    const found = await Promise.all(wanted.map((block) => this.#placeOf(block)));
    for (const [i, block] of wanted.entries()) {
      const place = found[i] ?? null;
      if (place instanceof FileRefusal) each.broken(block, place.problem);
      else {
        blocks.push(block);
        places.push(place);
      }
    }
    for (let from = 0; from < blocks.length; ) {
      signal?.throwIfAborted();
      const to = endOfBatch(places, from);
      const slices = places.slice(from, to).map((place) => place ?? { offset: 0, length: 0 });
      const read = await source.read(slices, signal);
      for (let i = from; i < to; i++) {
        const place = places[i] ?? null;
        const bytes = read[i - from] ?? new Uint8Array(0);
        const block = blocks[i] as BlockIndex;
        if (place === null) each.use(block, null);
        else this.#unpackInto(block, { bytes, rows: place.rows, columns: place.columns }, each);
      }
      from = to;
    }
  }

  #unpackInto<T>(
    block: BlockIndex,
    packed: PackedBlock,
    each: {
      unpack: (block: BlockIndex, packed: PackedBlock) => T;
      use: (block: BlockIndex, unpacked: T | null) => void;
      broken: EachBroken;
    },
  ): void {
    let unpacked: T;
    try {
      unpacked = each.unpack(block, packed);
    } catch (error) {
      each.broken(block, brokenBlock(this.#nameOf(block), error));
      return;
    }
    each.use(block, unpacked);
  }

  /** Where a block lies, or why it cannot be there. */
  async #placeOf({ column, row }: BlockIndex): Promise<BlockPlace | null | FileRefusal> {
    try {
      return await this.places.place(column, row, this.#parts.band);
    } catch (error) {
      if (error instanceof FileRefusal && BROKEN.includes(error.problem.code)) return error;
      throw error;
    }
  }

  #nameOf({ column, row }: BlockIndex): string {
    return `${this.#parts.layout.tiled ? 'tile' : 'strip'} ${row * this.places.across + column}`;
  }

  #samples({ bytes, rows, columns }: PackedBlock): Samples {
    const { layout, littleEndian, band } = this.#parts;
    return decodeSamples(bytes, { layout, littleEndian, columns, rows, mostRows: layout.blockRows, band });
  }

  /** Bytes that a block takes in the file. */
  async packedBytes(block: BlockIndex): Promise<number> {
    return (await this.places.place(block.column, block.row, this.#parts.band))?.length ?? 0;
  }

  /** The part of a block that lies on the raster. */
  extentOf(block: BlockIndex): BlockExtent {
    const { columns, rows } = this.#parts.layout;
    const { blockColumns } = this.places;
    return {
      stride: blockColumns,
      columns: Math.min(blockColumns, columns - block.column * blockColumns),
      rows: Math.min(this.places.rowsOf(block.row), rows - this.places.top(block.row)),
    };
  }

  #decoded(block: BlockIndex, samples: Samples): DecodedBlock {
    const decoded = heightsFromSamples(samples, this.#parts.rule, this.extentOf(block));
    this.#parts.cache.set(this.#key(block), decoded);
    return decoded;
  }

  #key(block: BlockIndex): string {
    return `${this.#parts.name}/${block.column}/${block.row}`;
  }
}

/** Index after the last block that is read together with the one at `from`. */
function endOfBatch(places: readonly (BlockPlace | null)[], from: number): number {
  let to = from;
  let bytes = 0;
  while (to < places.length && (to === from || bytes + (places[to]?.length ?? 0) <= BATCH_BYTES)) {
    bytes += places[to]?.length ?? 0;
    to++;
  }
  return to;
}
