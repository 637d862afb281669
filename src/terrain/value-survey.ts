import type { BlockIndex, BlockStore } from './block-store.ts';
import { type HeightRule, heightOf, isPlausible } from './heights-from-samples.ts';
import type { Samples } from './samples.ts';
import type { VoidMask } from './void-mask.ts';

/** What a look at some blocks of a file says about its stored numbers. */
export interface ValueSurvey {
  /** Cells looked at, and how many of them hold a number that is not nodata. */
  readonly cells: number;
  readonly valid: number;
  /** Whether every block of the file was looked at. */
  readonly complete: boolean;
  readonly lowest: number;
  readonly highest: number;
  /** Lowest number apart from 0, to tell a filling 0 from ground at sea level. */
  readonly lowestButZero: number;
  readonly zeros: number;
  readonly implausible: number;
  /** The implausible number that occurs most, and how often. */
  readonly commonImplausible: { readonly raw: number; readonly count: number } | null;
  readonly distinctImplausible: number;
  /** Median of the absolute difference between neighbours in a row, in stored numbers. */
  readonly typicalStep: number;
}

const BLOCKS_LOOKED_AT = 9;
const PACKED_BYTES = 2 * 1024 * 1024;
const MOST_DISTINCT = 4096;
const STEPS_KEPT = 20_000;

/** Looks at up to nine blocks spread over the raster, within a bound on the bytes read. */
export async function surveyValues(
  store: BlockStore,
  form: { rule: HeightRule; mask: VoidMask | null; signal?: AbortSignal | undefined },
): Promise<ValueSurvey> {
  const tally = new Tally(form.rule);
  const { blocks, complete } = await chooseBlocks(store);
  const looked: { block: BlockIndex; samples: Samples }[] = [];
  await store.eachSamples(
    blocks,
    (block, samples) => {
      if (samples !== null) looked.push({ block, samples });
    },
    form.signal,
  );
  for (const { block, samples } of looked) {
    const { stride, columns, rows } = store.extentOf(block);
    const window = { column: block.column * stride, row: store.places.top(block.row), columns, rows };
    const kept = form.mask === null ? null : await form.mask.kept(window, form.signal);
    for (let row = 0; row < rows; row++) {
      const values = samples.subarray(row * stride, row * stride + columns);
      tally.addRow(values, kept?.subarray(row * columns, (row + 1) * columns) ?? null);
    }
  }
  return tally.result(complete);
}

async function chooseBlocks(store: BlockStore): Promise<{ blocks: BlockIndex[]; complete: boolean }> {
  const { across, down } = store.places;
  const side = Math.sqrt(BLOCKS_LOOKED_AT);
  const columns = spread(across, down < side ? BLOCKS_LOOKED_AT / Math.max(1, down) : side);
  const rows = spread(down, across < side ? BLOCKS_LOOKED_AT / Math.max(1, across) : side);
  const wanted = rows.flatMap((row) => columns.map((column) => ({ column, row })));
  const blocks: BlockIndex[] = [];
  let bytes = 0;
  for (const block of wanted) {
    const length = await store.packedBytes(block);
    if (blocks.length > 0 && bytes + length > PACKED_BYTES) continue;
    bytes += length;
    blocks.push(block);
  }
  return { blocks, complete: blocks.length === across * down };
}

/** About `wanted` whole numbers spread over 0 … count − 1, the middle ones first. */
function spread(count: number, wanted: number): number[] {
  const steps = Math.max(1, Math.min(count, Math.floor(wanted)));
  const places = Array.from({ length: steps }, (_, i) => Math.floor(((i + 0.5) * count) / steps));
  const middle = (count - 1) / 2;
  return places.sort((p, q) => Math.abs(p - middle) - Math.abs(q - middle));
}

class Tally {
  readonly #rule: HeightRule;
  readonly #odd = new Map<number, number>();
  readonly #steps: number[] = [];
  #cells = 0;
  #valid = 0;
  #zeros = 0;
  #implausible = 0;
  #lowest = Number.POSITIVE_INFINITY;
  #lowestButZero = Number.POSITIVE_INFINITY;
  #highest = Number.NEGATIVE_INFINITY;

  constructor(rule: HeightRule) {
    this.#rule = rule;
  }

  addRow(row: ArrayLike<number>, kept: Uint8Array | null): void {
    let last: number | null = null;
    for (let i = 0; i < row.length; i++) {
      const raw = row[i] as number;
      this.#cells++;
      if (kept?.[i] === 0 || this.#rule.noData.isVoid(raw)) {
        last = null;
        continue;
      }
      this.#valid++;
      if (!isPlausible(heightOf(raw, this.#rule))) this.#addOdd(raw);
      if (raw === 0) this.#zeros++;
      else if (raw < this.#lowestButZero) this.#lowestButZero = raw;
      if (raw < this.#lowest) this.#lowest = raw;
      if (raw > this.#highest) this.#highest = raw;
      if (last !== null && this.#steps.length < STEPS_KEPT) this.#steps.push(Math.abs(raw - last));
      last = raw;
    }
  }

  #addOdd(raw: number): void {
    this.#implausible++;
    const seen = this.#odd.get(raw);
    if (seen !== undefined || this.#odd.size < MOST_DISTINCT) this.#odd.set(raw, (seen ?? 0) + 1);
  }

  result(complete: boolean): ValueSurvey {
    let common: { raw: number; count: number } | null = null;
    for (const [raw, count] of this.#odd) if (common === null || count > common.count) common = { raw, count };
    const steps = this.#steps.sort((p, q) => p - q);
    return {
      cells: this.#cells,
      valid: this.#valid,
      complete,
      lowest: this.#lowest,
      highest: this.#highest,
      lowestButZero: this.#lowestButZero,
      zeros: this.#zeros,
      implausible: this.#implausible,
      commonImplausible: common,
      distinctImplausible: this.#odd.size,
      typicalStep: steps[Math.floor(steps.length / 2)] ?? 0,
    };
  }
}
