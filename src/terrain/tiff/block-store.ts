import type { ByteSource } from '../bytes/byte-source.ts';
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

  /** Hands every block to `use` once, in no set order; null for one that the file leaves out. */
  async each(
    blocks: readonly BlockIndex[],
    use: (block: BlockIndex, decoded: DecodedBlock | null) => void,
    signal?: AbortSignal,
  ): Promise<void> {
    const { cache } = this.#parts;
    const missing: BlockIndex[] = [];
    for (const block of blocks) {
      const kept = cache.get(this.#key(block));
      if (kept === undefined) missing.push(block);
      else use(block, kept);
    }
    await this.#eachPacked(
      missing,
      (block, packed) => {
        // Another read may have unpacked the same block while this one waited for its bytes.
        use(
          block,
          packed === null ? null : (cache.get(this.#key(block)) ?? this.#decoded(block, this.#samples(packed))),
        );
      },
      signal,
    );
  }

  /** The stored numbers of blocks. */
  async eachSamples(
    blocks: readonly BlockIndex[],
    use: (block: BlockIndex, samples: Samples | null) => void,
    signal?: AbortSignal,
  ): Promise<void> {
    await this.#eachPacked(
      blocks,
      (block, packed) => use(block, packed === null ? null : this.#samples(packed)),
      signal,
    );
  }

  /** Reads blocks in batches; null for one that the file leaves out. */
  async #eachPacked(
    blocks: readonly BlockIndex[],
    use: (block: BlockIndex, packed: PackedBlock | null) => void,
    signal?: AbortSignal,
  ): Promise<void> {
    const { source, band } = this.#parts;
    const places = await Promise.all(blocks.map((block) => this.places.place(block.column, block.row, band)));
    for (let from = 0; from < blocks.length; ) {
      signal?.throwIfAborted();
      const to = endOfBatch(places, from);
      const slices = places.slice(from, to).map((place) => place ?? { offset: 0, length: 0 });
      const read = await source.read(slices, signal);
      for (let i = from; i < to; i++) {
        const place = places[i] ?? null;
        const bytes = read[i - from] ?? new Uint8Array(0);
        use(blocks[i] as BlockIndex, place === null ? null : { bytes, rows: place.rows });
      }
      from = to;
    }
  }

  #samples({ bytes, rows }: PackedBlock): Samples {
    const { layout, littleEndian, band } = this.#parts;
    return decodeSamples(bytes, { layout, littleEndian, rows, mostRows: layout.blockRows, band });
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
