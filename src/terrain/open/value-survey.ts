import type { Problem } from '../../units/outcome.ts';
import { FileRefusal } from '../bytes/file-refusal.ts';
import type { Samples } from '../codec/samples.ts';
import type { BlockIndex, BlockStore } from '../tiff/block-store.ts';
import type { HeightRule } from '../tiff/heights-from-samples.ts';
import type { VoidMask } from '../tiff/void-mask.ts';
import { type ValueSurvey, ValueTally } from './value-tally.ts';

/** Blocks looked at: nine, or as many small ones as make up so many cells. */
const FEWEST_BLOCKS = 9;
const MOST_BLOCKS = 400;
const CELLS_LOOKED_AT = 262_144;
/** Cells held unpacked at once while looking. */
const CELLS_HELD = 4_000_000;
const PACKED_BYTES = 2 * 1024 * 1024;

/** Looks at some blocks spread over the raster, within a bound on the bytes read. */
export async function surveyValues(
  store: BlockStore,
  form: { rule: HeightRule; mask: VoidMask | null; signal?: AbortSignal | undefined },
): Promise<ValueSurvey> {
  const tally = new ValueTally(form.rule);
  const { blocks, complete } = await chooseBlocks(store);
  const cells = blocks.length * store.places.blockColumns * store.places.blockRows;
  const everyRow = complete ? 1 : Math.max(1, Math.round(cells / CELLS_LOOKED_AT));
  const { blockColumns, blockRows } = store.places;
  const together = Math.max(1, Math.floor(CELLS_HELD / (blockColumns * blockRows)));
  const broken: Problem[] = [];
  let sound = 0;
  for (let from = 0; from < blocks.length; from += together) {
    sound += await lookAt(store, blocks.slice(from, from + together), { tally, broken, everyRow, ...form });
  }
  const [first] = broken;
  // Where more blocks are broken than sound the rest is not to be trusted either; those that the file leaves out say nothing.
  if (first && broken.length > sound) throw new FileRefusal(first);
  return tally.result(complete && broken.length === 0);
}

/** Answers how many of the blocks could be unpacked. */
async function lookAt(
  store: BlockStore,
  blocks: readonly BlockIndex[],
  form: {
    tally: ValueTally;
    broken: Problem[];
    everyRow: number;
    mask: VoidMask | null;
    signal?: AbortSignal | undefined;
  },
): Promise<number> {
  const looked: { block: BlockIndex; samples: Samples }[] = [];
  await store.eachSamples(
    blocks,
    {
      use: (block, samples) => {
        if (samples !== null) looked.push({ block, samples });
      },
      broken: (_, problem) => form.broken.push(problem),
    },
    form.signal,
  );
  for (const { block, samples } of looked) {
    const { stride, columns, rows } = store.extentOf(block);
    const window = { column: block.column * stride, row: store.places.top(block.row), columns, rows };
    const kept = form.mask === null ? null : await form.mask.kept(window, form.signal);
    let before: Samples | null = null;
    for (let row = 0; row < rows; row++) {
      // Rows in pairs, so that the ground is seen along and across them.
      const place = row % (2 * form.everyRow);
      if (form.everyRow > 1 && place > 1) continue;
      const values = samples.subarray(row * stride, row * stride + columns);
      const next = form.everyRow === 1 || place === 1;
      form.tally.addRow(values, kept?.subarray(row * columns, (row + 1) * columns) ?? null, next ? before : null);
      before = values;
    }
  }
  return looked.length;
}

async function chooseBlocks(store: BlockStore): Promise<{ blocks: BlockIndex[]; complete: boolean }> {
  const { across, down, blockColumns, blockRows } = store.places;
  const enough = Math.ceil(CELLS_LOOKED_AT / (blockColumns * blockRows));
  const count = Math.min(MOST_BLOCKS, Math.max(FEWEST_BLOCKS, enough));
  const columns = spread(across, Math.max(Math.sqrt(count), count / down));
  const rows = spread(down, Math.max(Math.sqrt(count), count / across));
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
