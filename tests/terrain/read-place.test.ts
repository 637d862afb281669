import { describe, expect, test } from 'vitest';
import type { OpenAnswers, OpenOutcome } from '../../src/terrain/georeference/open-answers.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { sourceOf } from './fixture-files.ts';
import { HEIGHTS, type MadeEntry, makeDem, makeTiff, packed, without } from './tiff-maker.ts';

// Rules from OGC GeoTIFF 1.1 (19-008r4), annex B.6 and section 7.1.2; projections as the EPSG registry defines them.

async function open(bytes: Uint8Array, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  return openGeoTiff(sourceOf('made.tif', bytes), answers);
}

async function opened(bytes: Uint8Array, answers: OpenAnswers = {}): Promise<OpenedGrid> {
  const outcome = await open(bytes, answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

const keys = (...entries: readonly (readonly [number, number, number, number])[]): MadeEntry => ({
  tag: 34735,
  type: 3,
  values: [1, 1, 0, entries.length, ...entries.flat()],
});

describe('where the cells lie', () => {
  test('a tiepoint away from the first cell moves the grid by that many cells', async () => {
    const tie: MadeEntry = { tag: 33922, type: 12, values: [3, 4, 0, 500006, 4199992, 0] };
    expect((await opened(makeDem([tie]))).affine).toEqual({ a: 2, b: 0, c: 500000, d: 0, e: -2, f: 4200000 });
  });

  test('coordinates of the middle of a cell move the grid by half a cell', async () => {
    const point = keys([1024, 0, 1, 1], [1025, 0, 1, 2], [3072, 0, 1, 32630]);
    const grid = await opened(makeDem([point]));
    expect(grid.affine).toEqual({ a: 2, b: 0, c: 499999, d: 0, e: -2, f: 4200001 });
    expect(grid.facts.cellsAre).toBe('point');
  });

  test('without a raster type the coordinates are those of corners', async () => {
    const grid = await opened(makeDem([keys([1024, 0, 1, 1], [3072, 0, 1, 32630])]));
    expect(grid.affine.c).toBe(500000);
  });

  test('a matrix may turn the grid', async () => {
    const matrix = [1.8, 0.7, 0, 500000, 0.7, -1.8, 0, 4200000, 0, 0, 0, 0, 0, 0, 0, 1];
    const bytes = makeTiff(
      [...without(33550).filter(({ tag }) => tag !== 33922), { tag: 34264, type: 12, values: matrix }],
      [packed(HEIGHTS)],
    );
    expect((await opened(bytes)).affine).toEqual({ a: 1.8, b: 0.7, c: 500000, d: 0.7, e: -1.8, f: 4200000 });
  });

  test('a negative Y scale is a question, and either answer is honoured', async () => {
    const bytes = makeDem([{ tag: 33550, type: 12, values: [2, -2, 0] }]);
    expect(await open(bytes)).toMatchObject({ kind: 'question', question: { about: 'rowsRun' } });
    expect((await opened(bytes, { rowsRun: 'north' })).affine.e).toBe(2);
    expect((await opened(bytes, { rowsRun: 'south' })).affine).toMatchObject({ e: -2, f: 4200000 });
  });

  test('control points that disagree with the scale are refused', async () => {
    const tie: MadeEntry = {
      tag: 33922,
      type: 12,
      values: [0, 0, 0, 500000, 4200000, 0, 12, 0, 0, 500030, 4200000, 0],
    };
    expect(await open(makeDem([tie]))).toMatchObject({ problems: [{ code: 'tiepoints-disagree' }] });
  });

  test.each([
    ['a column', 500026, 4200000, 'refused'],
    ['a row', 500024, 4200002, 'refused'],
    ['two hundredths of a cell', 500024.04, 4200000, 'refused'],
    ['half a hundredth of a cell', 500024.01, 4200000, 'opened'],
    ['nothing', 500024, 4200000, 'opened'],
  ])('a further tiepoint that is off by %s', async (_, x, y, kind) => {
    // Column 12 of cells of 2 m lies at 500024.
    const tie: MadeEntry = { tag: 33922, type: 12, values: [0, 0, 0, 500000, 4200000, 0, 12, 0, 0, x, y, 0] };
    expect((await open(makeDem([tie]))).kind).toBe(kind);
  });

  test('every further tiepoint is looked at', async () => {
    const tie = [0, 0, 0, 500000, 4200000, 0, 12, 0, 0, 500024, 4200000, 0, 0, 5, 0, 500000, 4199992, 0];
    expect(await open(makeDem([{ tag: 33922, type: 12, values: tie }]))).toMatchObject({
      problems: [{ code: 'tiepoints-disagree' }],
    });
  });

  test('a grid without a place is refused', async () => {
    expect(await open(makeTiff(without(33550), [packed(HEIGHTS)]))).toMatchObject({
      problems: [{ code: 'no-georeferencing' }],
    });
  });
});

describe('the coordinate reference system', () => {
  const doubles = (...values: number[]): MadeEntry => ({ tag: 34736, type: 12, values });
  const ascii = (values: string): MadeEntry => ({ tag: 34737, type: 2, values });

  test('a projected code comes before the geographic one beside it', async () => {
    const grid = await opened(makeDem([keys([1024, 0, 1, 1], [2048, 0, 1, 4269], [3072, 0, 1, 26915])]));
    expect(grid.crs).toEqual({ kind: 'epsg', code: 26915 });
  });

  test('a missing or user-defined model type does not hide the code', async () => {
    for (const model of [[], [[1024, 0, 1, 32767] as const]]) {
      const grid = await opened(makeDem([keys(...model, [3072, 0, 1, 2193])]));
      expect(grid.crs).toEqual({ kind: 'epsg', code: 2193 });
    }
  });

  test('a user-defined Albers projection is written out from its keys', async () => {
    const grid = await opened(
      makeDem([
        keys(
          [1024, 0, 1, 1],
          [2048, 0, 1, 4269],
          [3072, 0, 1, 32767],
          [3074, 0, 1, 32767],
          [3075, 0, 1, 11],
          [3076, 0, 1, 9001],
          [3078, 34736, 1, 0],
          [3079, 34736, 1, 1],
          [3080, 34736, 1, 3],
          [3081, 34736, 1, 2],
          [3082, 34736, 1, 4],
          [3083, 34736, 1, 4],
        ),
        doubles(29.5, 45.5, 37.5, -96, 0),
      ]),
    );
    expect(grid.crs).toMatchObject({
      kind: 'proj',
      definition:
        '+proj=aea +lat_0=37.5 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +datum=NAD83 +units=m +no_defs',
    });
  });

  test('false easting of a grid in US survey feet is stated in feet and handed on in metres', async () => {
    const grid = await opened(
      makeDem([
        keys(
          [1024, 0, 1, 1],
          [2048, 0, 1, 4269],
          [3072, 0, 1, 32767],
          [3075, 0, 1, 1],
          [3076, 0, 1, 9003],
          [3080, 34736, 1, 0],
          [3081, 34736, 1, 1],
          [3082, 34736, 1, 2],
          [3083, 34736, 1, 3],
          [3092, 34736, 1, 4],
        ),
        doubles(-90, 36, 1000000, 0, 0.9999),
      ]),
      { verticalUnit: 'metre' },
    );
    const definition = grid.crs.kind === 'proj' ? grid.crs.definition : '';
    expect(definition).toContain('+proj=tmerc');
    expect(definition).toContain('+to_meter=0.304800609601219');
    // 1 000 000 US survey feet of 1200/3937 m (NIST SP 811).
    expect(Number(/\+x_0=(\S+)/.exec(definition)?.[1])).toBeCloseTo((1_000_000 * 1200) / 3937, 6);
  });

  test('a UTM zone stated by its conversion becomes the code of the zone', async () => {
    const grid = await opened(
      makeDem([keys([1024, 0, 1, 1], [2048, 0, 1, 4326], [3072, 0, 1, 32767], [3074, 0, 1, 16133])]),
    );
    expect(grid.crs).toEqual({ kind: 'epsg', code: 32733 });
  });

  test('a projection string in the citation is read where there is no code', async () => {
    const text =
      'ESRI PE String = PROJCS["NAD_1983_UTM_Zone_15N",GEOGCS["GCS_North_American_1983",DATUM["D_North_American_1983",' +
      'SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],' +
      'PROJECTION["Transverse_Mercator"],PARAMETER["Central_Meridian",-93.0],UNIT["Meter",1.0]]|';
    const cited = (citation: string) =>
      makeDem([keys([1024, 0, 1, 1], [3072, 0, 1, 32767], [3073, 34737, citation.length, 0]), ascii(citation)]);
    expect((await opened(cited(text))).crs).toEqual({ kind: 'epsg', code: 26915 });
    const vertical = ',VERTCS["Local",VDATUM["Local"],PARAMETER["Vertical_Shift",0.0],UNIT["Foot",0.3048]]|';
    const local = await opened(cited(text.replace('NAD_1983_UTM_Zone_15N', 'Local_Grid').replace(/\|$/, vertical)));
    expect(local.crs).toMatchObject({
      kind: 'proj',
      title: 'Local_Grid',
      definition: '+proj=tmerc +lon_0=-93 +datum=NAD83 +to_meter=1 +no_defs',
    });
  });

  test('a projection string from another meridian than Greenwich is refused', async () => {
    const text =
      'ESRI PE String = PROJCS["Old",GEOGCS["Old",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.25]],PRIMEM["Paris",2.33722917]]]';
    const entries = [keys([1024, 0, 1, 1], [3072, 0, 1, 32767], [3073, 34737, text.length, 0]), ascii(text)];
    expect(await open(makeDem(entries))).toMatchObject({ kind: 'refused', problems: [{ code: 'crs' }] });
  });

  test('a geographic code means degrees', async () => {
    const grid = await opened(
      makeDem([
        keys([1024, 0, 1, 2], [2048, 0, 1, 4326]),
        { tag: 33550, type: 12, values: [1 / 10800, 1 / 10800, 0] },
        { tag: 33922, type: 12, values: [0, 0, 0, -30, 40, 0] },
      ]),
    );
    expect(grid.crs).toEqual({ kind: 'epsg', code: 4326 });
    expect(grid.facts.geographic).toBe(true);
  });

  test('a file without any CRS asks for it, and the answer is used', async () => {
    const bytes = makeTiff(without(34735), [packed(HEIGHTS)]);
    expect(await open(bytes)).toMatchObject({
      kind: 'question',
      question: { about: 'crs', corners: [500000, 4199980, 500024, 4200000] },
    });
    expect((await opened(bytes, { crs: 32629 })).crs).toEqual({ kind: 'epsg', code: 32629 });
  });

  test('a projected file that states its datum alone is not taken for degrees: the user is asked', async () => {
    const bytes = makeDem([keys([1024, 0, 1, 1], [2048, 0, 1, 4269], [3072, 0, 1, 32767])]);
    expect(await open(bytes)).toMatchObject({ kind: 'question', question: { about: 'crs' } });
    expect((await opened(bytes, { crs: 26915 })).crs).toEqual({ kind: 'epsg', code: 26915 });
  });

  test('a projection that is not known is refused by name', async () => {
    const outcome = await open(
      makeDem([keys([1024, 0, 1, 1], [2048, 0, 1, 4326], [3072, 0, 1, 32767], [3075, 0, 1, 3])]),
    );
    expect(outcome).toMatchObject({
      problems: [{ code: 'crs', path: 'made.tif: ProjectionMethod', found: 'projection method 3' }],
    });
  });
});
