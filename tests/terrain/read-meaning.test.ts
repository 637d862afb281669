import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { OpenAnswers, OpenOutcome } from '../../src/terrain/georeference/open-answers.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { sourceOf } from './fixture-files.ts';
import { COLUMNS, demEntries, HEIGHTS, type MadeEntry, makeDem, makeTiff, ROWS } from './tiff-maker.ts';

// Units: EPSG registry, units 9001 to 9003 and 9095; vertical CRSs of the EPSG registry v10.076.

async function open(bytes: Uint8Array, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  return openGeoTiff(sourceOf('made.tif', bytes), answers);
}

/** The made ground is steep; where a unit is not what is tested, it is said. */
async function heights(bytes: Uint8Array, answers: OpenAnswers = {}) {
  const outcome = await open(bytes, answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  const block = await outcome.value.read({ column: 0, row: 0, columns: COLUMNS, rows: ROWS });
  return { grid: outcome.value, ...block };
}

const keys = (...entries: readonly (readonly [number, number, number, number])[]): MadeEntry => ({
  tag: 34735,
  type: 3,
  values: [1, 1, 0, entries.length, ...entries.flat()],
});
const metadata = (items: string): MadeEntry => ({
  tag: 42112,
  type: 2,
  values: `<GDALMetadata>${items}</GDALMetadata>\0`,
});
const noData = (text: string): MadeEntry => ({ tag: 42113, type: 2, values: `${text}\0` });
/** In feet the plane keeps its slope; three times as high it would be steeper than any ground. */
const feet = HEIGHTS.map((height) => 600 + height);

describe('the unit of the heights', () => {
  const utm = [3072, 0, 1, 32630] as const;

  test.each([
    ['a unit text of the band', [metadata('<Item name="UNITTYPE" sample="0" role="unittype">ft</Item>')], 0.3048],
    ['the vertical unit key', [keys(utm, [4099, 0, 1, 9003])], 1200 / 3937],
    ['a vertical CRS in US survey feet', [keys(utm, [4096, 0, 1, 6360])], 1200 / 3937],
    ['a vertical CRS in international feet', [keys(utm, [4096, 0, 1, 8228])], 0.3048],
    ['a vertical CRS in British feet of 1936', [keys(utm, [4096, 0, 1, 5754])], 0.3048007491],
    ['a vertical CRS in metres', [keys(utm, [4096, 0, 1, 5703])], 1],
    ['a code of GeoTIFF 1.0, which says nothing of units', [keys(utm, [4096, 0, 1, 5103])], 1],
    ['the vertical part of a compound code, NAVD88 in international feet', [keys([3072, 0, 1, 8700])], 0.3048],
    [
      'the unit text before the vertical CRS',
      [keys(utm, [4096, 0, 1, 6360]), metadata('<Item name="UNITTYPE" sample="0" role="unittype">metre</Item>')],
      1,
    ],
  ] as const)('%s', async (_, changes, metres) => {
    const { heights: found } = await heights(makeDem([...changes], feet));
    for (const [i, raw] of feet.entries()) expect(found[i]).toBe(metres === 1 ? raw : raw * metres);
  });

  // Names: EPSG Geodetic Parameter Dataset v10.076, `projinfo EPSG:n`; 5103 and its like: GeoTIFF 1.0, section 6.3.4.1.
  test.each([
    ['a vertical CRS in metres', [keys(utm, [4096, 0, 1, 5703])], 'NAVD88 height'],
    ['the same in US survey feet', [keys(utm, [4096, 0, 1, 6360])], 'NAVD88 height'],
    ['a code of GeoTIFF 1.0 for it', [keys(utm, [4096, 0, 1, 5103])], 'NAVD88 height'],
    ['a compound code with it', [keys([3072, 0, 1, 8700])], 'NAVD88 height'],
    ['another one', [keys(utm, [4096, 0, 1, 3855])], 'EGM2008 height'],
    ['one with a bracket in its name', [keys(utm, [4096, 0, 1, 6695])], 'JGD2011 (vertical) height'],
    ['a code that nobody knows', [keys(utm, [4096, 0, 1, 5999])], 'EPSG:5999'],
    ['nothing', [keys(utm)], null],
  ] as const)('what the heights count above is told without their unit: %s', async (_, changes, name) => {
    expect((await heights(makeDem([...changes], feet))).grid.facts.verticalDatum).toBe(name);
  });

  test('nothing stated: metres, with a note that says so', async () => {
    const { grid } = await heights(makeDem());
    expect(grid.facts).toMatchObject({ verticalUnit: 'metre', unitEvidence: 'assumed' });
    expect(grid.facts.notes).toContainEqual({
      code: 'vertical-unit-assumed',
      data: expect.objectContaining({ file: 'made.tif', unit: 'metre' }),
    });
  });

  test('a grid in feet says nothing about its heights: the user is asked', async () => {
    const outcome = await open(makeDem([keys([3072, 0, 1, 2264], [3076, 0, 1, 9003])]));
    expect(outcome).toMatchObject({ kind: 'question', question: { about: 'verticalUnit', because: 'grid-in-feet' } });
  });

  test('a code of a grid in feet without a word on its unit is asked about too', async () => {
    const outcome = await open(makeDem([keys([3072, 0, 1, 2222])]));
    expect(outcome).toMatchObject({ kind: 'question', question: { about: 'verticalUnit', because: 'grid-in-feet' } });
  });

  test('a CRS that nobody can compute is refused by name', async () => {
    const outcome = await open(makeDem([keys([3072, 0, 1, 60000])]));
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ found: expect.stringContaining('60000') }] });
  });

  test.each([5715, 5861, 6358])('depths (EPSG:%i) are refused', async (code) => {
    const outcome = await open(makeDem([keys(utm, [4096, 0, 1, code])]));
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ code: 'depths' }] });
  });

  test('centimetres beyond any summit are asked about, and the answer is honoured', async () => {
    const centimetres = Uint16Array.from(HEIGHTS, (height) => Math.round(height * 100));
    const bytes = makeDem(
      [
        { tag: 258, type: 3, values: [16] },
        { tag: 339, type: 3, values: [1] },
      ],
      centimetres,
    );
    expect(await open(bytes)).toMatchObject({
      kind: 'question',
      question: { about: 'verticalUnit', because: 'heights-implausible', likely: 'centimetre' },
    });
    const { heights: found, grid } = await heights(bytes, { verticalUnit: 'centimetre' });
    expect(found[0]).toBeCloseTo(HEIGHTS[0] ?? 0, 2);
    expect(grid.quantum).toBe(0.01);
  });

  test('centimetres within the range of metres are given away by their slopes', async () => {
    const low = Uint16Array.from(HEIGHTS, (height) => Math.round((height - 290) * 100));
    const bytes = makeDem(
      [
        { tag: 258, type: 3, values: [16] },
        { tag: 339, type: 3, values: [1] },
      ],
      low,
    );
    expect(await open(bytes)).toMatchObject({
      kind: 'question',
      question: { about: 'verticalUnit', because: 'slopes-implausible', likely: 'centimetre' },
    });
  });
});

describe('nodata', () => {
  const holes = (value: number) => HEIGHTS.map((height, i) => (i % 7 === 3 ? value : height));

  test.each([
    ['-9999', -9999],
    ['-9999.006', -9999.006],
    ['-3.402823e+38', -3.4028234663852886e38],
    ['-3.4028229999999999e+038', -3.4028234663852886e38],
    ['nan', Number.NaN],
    ['-9999', Number.POSITIVE_INFINITY],
    ['-32768', -32768],
  ])('stated as %s, stored as %d', async (text, stored) => {
    const { known, heights: found } = await heights(makeDem([noData(text)], holes(stored)));
    for (let i = 0; i < HEIGHTS.length; i++) {
      expect(known[i]).toBe(i % 7 === 3 ? 0 : 1);
      expect(found[i]).toBe(i % 7 === 3 ? 0 : HEIGHTS[i]);
    }
  });

  test.each([-9999, -32768, 32767, -999999])('%d that nobody declared is asked about', async (value) => {
    const outcome = await open(makeDem([], holes(value)));
    expect(outcome).toMatchObject({ kind: 'question', question: { about: 'noData', suspicious: value } });
    const answered = await heights(makeDem([], holes(value)), { noData: value });
    expect(answered.known[3]).toBe(0);
    expect(answered.known[4]).toBe(1);
  });

  test('another number declared than stored is asked about, with the one that is stored', async () => {
    const outcome = await open(makeDem([noData('-9999')], holes(-32768)));
    expect(outcome).toMatchObject({ question: { about: 'noData', suspicious: -32768, stated: '-9999' } });
  });

  test('zeros among heights of 300 m are asked about; a plain at sea level is not', async () => {
    expect(await open(makeDem([], holes(0)))).toMatchObject({ question: { about: 'noData', suspicious: 0 } });
    const plain = HEIGHTS.map((height, i) => (i % 7 === 3 ? 0 : height - 297));
    expect(await open(makeDem([], plain))).toMatchObject({ kind: 'opened' });
  });

  test('a number that no ground has never leaves the file, even if the user says it is a height: it is a hole, with a note', async () => {
    const outcome = await open(makeDem([], holes(-9999)), { noData: 'none' });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.value.read({ column: 0, row: 0, columns: COLUMNS, rows: ROWS });
    expect([block.known[3], block.heights[3], block.known[4]]).toEqual([0, 0, 1]);
    const count = HEIGHTS.filter((_, i) => i % 7 === 3).length;
    expect(block.flaws).toMatchObject([{ code: 'odd-heights', file: 'made.tif', count }]);
    expect(block.flaws?.[0]?.first).toMatch(/^-9999 at column 3, row 0/);
  });

  test('nodata in every cell is refused', async () => {
    const outcome = await open(
      makeDem(
        [noData('-9999')],
        HEIGHTS.map(() => -9999),
      ),
    );
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ code: 'no-heights' }] });
  });
});

describe('scale and offset', () => {
  test('height = raw · scale + offset, and nodata is compared before', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        async (scale, offset) => {
          const raw = Int16Array.from(HEIGHTS, (height, i) => (i === 5 ? -1 : Math.round(height * 10)));
          const { heights: found, known } = await heights(
            makeDem(
              [
                { tag: 258, type: 3, values: [16] },
                { tag: 339, type: 3, values: [2] },
                noData('-1'),
                metadata(
                  `<Item name="SCALE" sample="0" role="scale">${scale}</Item><Item name="OFFSET" sample="0" role="offset">${offset}</Item>`,
                ),
              ],
              raw,
            ),
            { verticalUnit: 'metre' },
          );
          expect(known[5]).toBe(0);
          for (const [i, value] of raw.entries()) if (i !== 5) expect(found[i]).toBe(value * scale + offset);
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('bands', () => {
  const two = makeTiff(
    demEntries([
      { tag: 258, type: 3, values: [32, 32] },
      { tag: 277, type: 3, values: [2] },
      { tag: 339, type: 3, values: [3, 3] },
      metadata('<Item name="DESCRIPTION" sample="1" role="description">bare ground</Item>'),
      { tag: 259, type: 3, values: [1] },
    ]),
    [
      new Uint8Array(
        Float32Array.from({ length: 2 * HEIGHTS.length }, (_, i) => (HEIGHTS[i >> 1] ?? 0) + (i % 2) * 5).buffer,
      ),
    ],
  );

  test('a file of several is asked about, with what it says of them', async () => {
    expect(await open(two)).toMatchObject({
      kind: 'question',
      question: {
        about: 'band',
        bands: [
          { band: 1, title: '' },
          { band: 2, title: 'bare ground' },
        ],
      },
    });
  });

  test('the one that the user names is read', async () => {
    const { heights: found } = await heights(two, { band: 2 });
    expect(found[7]).toBe(Math.fround((HEIGHTS[7] ?? 0) + 5));
  });

  test('one that is not there is refused', async () => {
    expect(await open(two, { band: 3 })).toMatchObject({ problems: [{ code: 'band' }] });
  });

  test('an aerial picture is refused as a picture', async () => {
    const picture = makeTiff(
      demEntries([
        { tag: 258, type: 3, values: [8, 8, 8] },
        { tag: 277, type: 3, values: [3] },
        { tag: 262, type: 3, values: [2] },
        { tag: 339, type: 3, values: [1, 1, 1] },
        { tag: 259, type: 3, values: [1] },
      ]),
      [new Uint8Array(3 * HEIGHTS.length)],
    );
    expect(await open(picture)).toMatchObject({ problems: [{ code: 'picture' }] });
  });
});

describe('whole numbers', () => {
  test('the step between heights is told for whole numbers, and none for floating point', async () => {
    const whole = Int16Array.from(HEIGHTS);
    const grid = (
      await heights(
        makeDem(
          [
            { tag: 258, type: 3, values: [16] },
            { tag: 339, type: 3, values: [2] },
          ],
          whole,
        ),
      )
    ).grid;
    expect(grid.quantum).toBe(1);
    expect((await heights(makeDem())).grid.quantum).toBe(0);
  });
});
