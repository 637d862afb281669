import { describe, expect, test } from 'vitest';
import { FileRefusal } from '../../src/terrain/bytes/file-refusal.ts';
import type { OpenAnswers } from '../../src/terrain/georeference/open-answers.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { fixtureBytes, sourceOf } from './fixture-files.ts';
import {
  bombs,
  cyclic,
  flipped,
  type HostileFile,
  IMPOSSIBLE,
  impossible,
  overwritten,
  truncated,
} from './hostile-corpus.ts';
import { makeDem } from './tiff-maker.ts';

// A malformed file may be refused, may raise a question, or may still give heights: then only ones of the file it was made
// from. Every refusal names the file. TIFF 6.0 (Adobe, 1992) and the formats' own documents say what is impossible.

/** What such small and steep invented files would be asked about. */
const ANSWERS: OpenAnswers = { verticalUnit: 'metre' };

async function heightsOf(grid: OpenedGrid): Promise<Set<number>> {
  const block = await grid.read({
    column: 0,
    row: 0,
    columns: Math.min(grid.columns, 64),
    rows: Math.min(grid.rows, 64),
  });
  const heights = new Set<number>();
  for (const [i, height] of block.heights.entries()) {
    expect(Number.isFinite(height)).toBe(true);
    if (block.known[i] === 1) heights.add(height);
  }
  return heights;
}

async function trueHeights(bytes: Uint8Array): Promise<Set<number>> {
  const outcome = await openElevation(sourceOf('true.tif', bytes), ANSWERS);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return heightsOf(outcome.value);
}

/** What becomes of a file: `refused`, `question`, `unreadable` where its cells are, or the heights it gave, with holes it tells of. */
async function fate(file: HostileFile): Promise<string | Set<number> | { readonly holes: Set<number> }> {
  const outcome = await openElevation(sourceOf('bad.tif', file.bytes), ANSWERS);
  if (outcome.kind !== 'opened') {
    for (const { code, path, found, expected } of outcome.problems) {
      expect(code, file.name).not.toBe('unreadable');
      expect(path.startsWith('bad.tif')).toBe(true);
      expect(found).not.toBe('');
      expect(expected).not.toBe('');
    }
    expect(outcome.problems.length).toBeGreaterThan(0);
    return outcome.kind;
  }
  try {
    const heights = await heightsOf(outcome.value);
    return (outcome.value.flaws?.() ?? []).length > 0 ? { holes: heights } : heights;
  } catch (error) {
    if (!(error instanceof FileRefusal)) throw error;
    expect(error.problem.path.startsWith('bad.tif')).toBe(true);
    return 'unreadable';
  }
}

async function checkAll(files: readonly HostileFile[]): Promise<Map<string, number>> {
  const fates = new Map<string, number>();
  const known = new Map<Uint8Array, Set<number>>();
  for (const file of files) {
    const end = await fate(file);
    const name = typeof end === 'string' ? end : end instanceof Set ? 'heights' : 'holes';
    fates.set(name, (fates.get(name) ?? 0) + 1);
    if (typeof end === 'string') continue;
    const given = end instanceof Set ? end : end.holes;
    if (file.from === null) throw new Error(`${file.name} gave heights`);
    const truth = known.get(file.from) ?? (await trueHeights(file.from));
    known.set(file.from, truth);
    // Where broken blocks are told, an overwritten width may also show the zeros that fill the last tile up.
    const padding = given === end ? null : 0;
    for (const height of given)
      if (!truth.has(height) && height !== padding)
        throw new Error(`${file.name} gave ${height}, which is not in the file`);
  }
  return fates;
}

describe('malformed files', () => {
  test('the corpus holds at least 200 of them', () => {
    const counts = [truncated(), flipped(60), overwritten(40), impossible(), cyclic(), bombs()].map(
      (part) => part.length,
    );
    expect(counts.reduce((sum, count) => sum + count, 0)).toBeGreaterThanOrEqual(200);
  });

  test('cut off anywhere: refused, or the heights that are still there', async () => {
    const fates = await checkAll(truncated());
    expect((fates.get('refused') ?? 0) + (fates.get('unreadable') ?? 0)).toBeGreaterThan(60);
  });

  test('a download that broke off is told when the file is opened, before any cell is read', async () => {
    const from = fixtureBytes('little-float32-tiles');
    const source = sourceOf('bad.tif', from.slice(0, from.length - 100));
    const outcome = await openElevation(source);
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ code: 'outside-file' }] });
    // GDAL writes the directory first: the start of the file holds all that was looked at.
    expect(source.bytesRead).toBeLessThan(from.length + 512);
  });

  test('bits of blocks turned over: refused, or a hole with a note, or the same heights', async () => {
    const fates = await checkAll(flipped(60));
    expect((fates.get('refused') ?? 0) + (fates.get('holes') ?? 0)).toBeGreaterThan(180);
    expect(fates.get('unreadable')).toBeUndefined();
  });

  test('fields of the directory overwritten: refused, or the same heights', async () => {
    const fates = await checkAll(overwritten(40));
    expect((fates.get('refused') ?? 0) + (fates.get('unreadable') ?? 0)).toBeGreaterThan(60);
  });

  test('directories that never end are refused', async () => {
    expect(await checkAll(cyclic())).toEqual(new Map([['refused', cyclic().length]]));
  });

  test('blocks that unpack to more or less than their raster give nothing that is not in it', async () => {
    const fates = await checkAll(bombs());
    expect(fates.get('heights')).toBeUndefined();
  });

  test('texts made to keep a reader searching are read at once', async () => {
    const texts = [
      `<Item ${'a'.repeat(1_000_000)}>`,
      '<Item '.repeat(200_000),
      `<Item name="${'x'.repeat(1e6)}">1</Item>`,
    ];
    for (const values of texts) {
      const outcome = await openElevation(sourceOf('bad.tif', makeDem([{ tag: 42112, type: 2, values }])));
      expect(outcome.kind).toBe('opened');
    }
    const long = await openElevation(sourceOf('bad.tif', makeDem([{ tag: 42113, type: 2, values: '?'.repeat(1e6) }])));
    expect(long.kind === 'refused' && long.problems[0]?.found.length).toBeLessThan(200);
  });
});

describe('a directory that says what cannot be is refused by name', () => {
  test.each(IMPOSSIBLE)('%s', async (_, changes, code) => {
    const outcome = await openElevation(sourceOf('bad.tif', makeDem(changes)));
    expect(outcome.kind).toBe('refused');
    if (outcome.kind === 'refused') expect(outcome.problems.map((problem) => problem.code)).toEqual([code]);
  });
});
