import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { describe, expect, test } from 'vitest';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { decoded, fixtureBytes, sourceOf } from './fixture-files.ts';
import { COLUMNS, HEIGHTS, type MadeEntry, makeDem, makeTiff, packed, ROWS, UTM_KEYS, without } from './tiff-maker.ts';

// Why heights are not read by the package that writes them: each test states one thing that it reads otherwise than GDAL, or
// does with a hostile file. A version that mends one turns its test red: then strike it here and in docs/elevation-files.md, and
// when none is left that matters, our own reader can go.

async function imageOf(bytes: Uint8Array): Promise<GeoTIFFImage> {
  return (await fromArrayBuffer(bytes.slice().buffer)).getImage(0);
}

async function cellsOf(bytes: Uint8Array): Promise<Float64Array | Float32Array | Int16Array | Uint16Array> {
  const rasters = await (await imageOf(bytes)).readRasters({ samples: [0] });
  const [cells] = Array.isArray(rasters) ? rasters : [rasters];
  return cells as Float32Array;
}

/** What GDAL decodes from a fixture, void cells null. */
function byGdal(name: string): readonly (number | null)[] {
  const cells = decoded.arrays[decoded.files[name]?.values ?? ''];
  if (cells === undefined) throw new Error(`found no fixture ${name}`);
  return cells;
}

/** Values are recorded to six places. */
const same = (read: number | undefined, recorded: number) => Math.abs((read ?? Number.NaN) - recorded) < 1e-5;

/** Cells with a height that come out as another number. */
async function wrongHeights(name: string): Promise<number> {
  const read = await cellsOf(fixtureBytes(name));
  return byGdal(name).filter((height, k) => height !== null && !same(read[k], height)).length;
}

/** What cells without a height come out as. */
async function voidsOf(name: string): Promise<ReadonlySet<number | undefined>> {
  const read = await cellsOf(fixtureBytes(name));
  return new Set(byGdal(name).flatMap((height, k) => (height === null ? [read[k]] : [])));
}

describe('the comparison itself', () => {
  test.each(['little-float32-deflate-p2', 'little-float32-lzw-p3', 'lerc-float32', 'big-float32-strips'])(
    'finds nothing wrong in %s, which the package reads as GDAL does',
    async (name) => expect(await wrongHeights(name)).toBe(0),
  );
});

describe('heights that the package reads otherwise than GDAL, without a word', () => {
  test.each([
    'big-float32-deflate-p2',
    'big-int16-lzw-p2',
    'big-uint16-deflate-p2',
    'big-float32-lzw-p3',
    'big-float64-deflate-p3',
  ])('big-endian with a predictor: %s', async (name) => expect(await wrongHeights(name)).toBeGreaterThan(100));

  test('cells that a LERC blob masks come out as 0', async () => {
    expect(await voidsOf('lerc-float32-nan')).toEqual(new Set([0]));
  });

  test('a tile that was left out comes out as 0 where nodata is NaN', async () => {
    expect(await voidsOf('little-sparse-nan')).toContain(0);
  });

  test('a mask in the file is not applied: its cells keep the numbers below it', async () => {
    const [masked] = [await voidsOf('mask-deflate')];
    expect([...masked].every((cell) => Number.isFinite(cell))).toBe(true);
  });

  test('halving by bilinear sampling takes every other cell instead of the mean of two', async () => {
    const bytes = makeDem(
      [],
      Float32Array.from({ length: COLUMNS * ROWS }, (_, k) => k % COLUMNS),
    );
    const image = await imageOf(bytes);
    const half = await image.readRasters({
      width: COLUMNS / 2,
      height: ROWS,
      resampleMethod: 'bilinear',
      interleave: true,
    });
    // Middles of pairs of cells lie between them: 0.5, 2.5, 4.5.
    expect(Array.from(half as ArrayLike<number>).slice(0, 3)).toEqual([0, 2, 4]);
  });
});

describe('places that the package gives otherwise than GDAL', () => {
  const matrix: MadeEntry = {
    tag: 34264,
    type: 12,
    values: [2, 0, 0, 500000, 0, -2, 0, 4200000, 0, 0, 0, 0, 0, 0, 0, 1],
  };
  const byMatrix = makeTiff([...without(33550).filter(({ tag }) => tag !== 33922), matrix], [packed(HEIGHTS)]);

  test('a matrix without a turn has a Y step of the wrong sign', async () => {
    // GDAL: pixel size (2, −2).
    expect((await imageOf(byMatrix)).getResolution()[1]).toBe(2);
  });

  test('a tiepoint away from the first cell is taken for one at it', async () => {
    const [x] = (await imageOf(fixtureBytes('tiepoint-10-7'))).getOrigin();
    expect(decoded.files['tiepoint-10-7']?.geotransform[0]).toBe(500000);
    expect(x).toBe(500020);
  });

  test('coordinates of the middle of a cell are taken for those of its corner', async () => {
    const [x, y] = (await imageOf(fixtureBytes('point'))).getOrigin();
    const [gx = 0, , , gy = 0] = decoded.files.point?.geotransform ?? [];
    expect([(x ?? 0) - gx, (y ?? 0) - gy]).toEqual([1, -1]);
  });

  test('a file that says nothing is not taken for one of areas', async () => {
    // OGC GeoTIFF 1.1 (19-008r4), section 7.1.2: area where the key is missing.
    const keys = [1, 1, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, 32630];
    const said = async (values: number[]) => (await imageOf(makeDem([{ tag: 34735, type: 3, values }]))).pixelIsArea();
    expect(await said(UTM_KEYS)).toBe(true);
    expect(await said(keys)).toBe(false);
  });
});

describe('files of many blocks', () => {
  /** A grid of one column, a strip each row, uncompressed: row k holds k. */
  function ofStrips(rows: number, bigEndian: boolean): Uint8Array {
    const blocks = Array.from({ length: rows }, (_, k) => {
      const block = new Uint8Array(4);
      new DataView(block.buffer).setFloat32(0, k, !bigEndian);
      return block;
    });
    const shape: MadeEntry[] = [
      { tag: 256, type: 3, values: [1] },
      { tag: 257, type: 3, values: [rows] },
      { tag: 259, type: 3, values: [1] },
      { tag: 278, type: 3, values: [1] },
    ];
    const changed = new Set(shape.map(({ tag }) => tag));
    return makeTiff([...without(278).filter(({ tag }) => !changed.has(tag)), ...shape], blocks, { bigEndian });
  }

  async function outcome(bytes: Uint8Array): Promise<'read' | 'not read'> {
    try {
      const cells = await cellsOf(bytes);
      return cells.every((cell, k) => cell === k) ? 'read' : 'not read';
    } catch {
      return 'not read';
    }
  }

  test('are not read when they are big-endian', async () => {
    const rows = 4000;
    expect(await outcome(ofStrips(rows, false))).toBe('read');
    expect(await outcome(ofStrips(rows, true))).toBe('not read');
    const ours = await openGeoTiff(sourceOf('strips.tif', ofStrips(rows, true)), {
      verticalUnit: 'metre',
      noData: 'none',
    });
    if (ours.kind !== 'opened') throw new Error(JSON.stringify(ours));
    const { heights } = await ours.value.read({ column: 0, row: 0, columns: 1, rows });
    expect([...heights]).toEqual(Array.from({ length: rows }, (_, k) => k));
  });
});

describe('hostile and broken files', () => {
  test('a few hundred bytes make the package allocate what they claim; ours refuses them', async () => {
    // A million times as many cells as there are bytes, in tiles that were left out.
    const side = 4096;
    const claim = (tag: number, values: number[]): MadeEntry => ({ tag, type: 4, values });
    const changed: MadeEntry[] = [
      claim(256, [side]),
      claim(257, [side]),
      claim(322, [side]),
      claim(323, [side]),
      claim(324, [0]),
      claim(325, [0]),
    ];
    const tags = new Set(changed.map(({ tag }) => tag));
    const bytes = makeTiff([...without(278).filter(({ tag }) => !tags.has(tag)), ...changed], [], { tiled: true });
    expect(bytes.length).toBeLessThan(600);
    expect((await cellsOf(bytes)).length).toBe(side * side);
    expect(await openGeoTiff(sourceOf('claim.tif', bytes))).toMatchObject({ kind: 'refused' });
  });

  test('a block that is no ZSTD comes out as zeros; ours is a hole', async () => {
    const name = 'little-float32-zstd-p1';
    const bytes = fixtureBytes(name);
    const image = await imageOf(bytes);
    const offsets = await image.fileDirectory
      .loadValue('TileOffsets')
      .catch(() => image.fileDirectory.loadValue('StripOffsets'));
    const [offset] = Array.from(offsets as ArrayLike<number>);
    if (offset === undefined) throw new Error('found no block');
    const broken = bytes.slice();
    // Other bytes changed make it ask for memory until there is none, which a test cannot state.
    broken[offset] = 0;
    const read = await cellsOf(broken);
    expect(read.filter((cell) => cell === 0).length).toBeGreaterThan(100);
    const ours = await openGeoTiff(sourceOf('broken.tif', broken));
    if (ours.kind !== 'opened') throw new Error(`found ${ours.kind}, expected a file with a hole`);
    const block = await ours.value.read({ column: 0, row: 0, columns: 1, rows: 1 });
    expect([...block.known]).toEqual([0]);
  });

  test('a DEFLATE block that is broken is thrown as a text, not as an error', async () => {
    const bytes = makeDem();
    bytes.fill(0xff, 12, 40);
    await expect(cellsOf(bytes)).rejects.toBeTypeOf('string');
  });
});
