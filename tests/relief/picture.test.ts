import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { aboutPicture } from '../../src/relief/picture/about-picture.ts';
import type { DecodeJpeg } from '../../src/relief/picture/jpeg-size.ts';
import { jpegSize, wholeJpeg } from '../../src/relief/picture/jpeg-size.ts';
import { openPictureTiff } from '../../src/relief/picture/open-picture.ts';
import type { PictureLevel, PicturePyramid } from '../../src/relief/picture/picture-pyramid.ts';
import { pictureTile } from '../../src/relief/picture/picture-tile.ts';
import type { ByteSource } from '../../src/terrain/bytes/byte-source.ts';

const noJpeg: DecodeJpeg = () => Promise.reject(new Error('JPEG decoder: none in this test'));

function fileSource(address: URL): ByteSource {
  const bytes = new Uint8Array(readFileSync(address));
  return {
    name: address.pathname.split('/').pop() ?? '',
    size: bytes.length,
    read: (slices) => Promise.resolve(slices.map(({ offset, length }) => bytes.slice(offset, offset + length))),
  };
}

async function open(path: string) {
  const outcome = await openPictureTiff(fileSource(new URL(path, import.meta.url)), noJpeg);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

/** A level that is near enough to be drawn. */
function levelOf(pyramid: PicturePyramid, pixels: number): PictureLevel {
  const level = pyramid.level(pixels);
  if (level === null) throw new Error(`found no level for ${pixels} pixels, expected one`);
  return level;
}

/** What GDAL 3.6.2 reads from the same files; fixtures/README.md has the commands. */
const GDAL: Readonly<Record<string, string>> = JSON.parse(
  readFileSync(new URL('fixtures/pictures.json', import.meta.url), 'utf8'),
);

describe('an aerial picture from a GeoTIFF', () => {
  test.each(Object.keys(GDAL))('%s has the colours that GDAL reads', async (name) => {
    const { pyramid } = await open(`fixtures/${name}.tif`);
    const level = levelOf(pyramid, 1);
    const { rgba } = await pyramid.read(level, { column: 0, row: 0, columns: 20, rows: 18 });
    const expected = [...Buffer.from(GDAL[name] ?? '', 'base64')];
    expect(expected).toHaveLength(rgba.length);
    expect(rgba.findIndex((value, at) => value !== expected[at])).toBe(-1);
  });

  test('lies where its coordinates say, with the size of its pixels on the ground', async () => {
    const about = aboutPicture(await open('../../data/demo/picture.tif'));
    expect(about?.size).toEqual({ columns: 2000, rows: 1800 });
    expect(about?.pixel.width).toBeCloseTo(0.5, 3);
    // cs2cs EPSG:32624 EPSG:4326 at 412000 4206900 (printed to 1e-8 degree).
    expect(about?.outline[0]?.lon).toBeCloseTo(-40.00237087, 7);
    expect(about?.outline[0]?.lat).toBeCloseTo(38.00550669, 7);
  });

  test('in a map tile equals the picture that GDAL warps there, to a few steps of 255', async () => {
    // gdal.Warp of data/demo/picture.tif to the bounds of tile 18/101947/101115 in EPSG:3857, 256 × 256, bilinear, error 0.
    const expected = [
      [10, 20, 160, 151, 105],
      [128, 128, 147, 138, 96],
      [200, 77, 150, 141, 99],
      [31, 240, 165, 154, 108],
      [250, 5, 143, 134, 95],
    ] as const;
    const rgba = await pictureTile(await open('../../data/demo/picture.tif'), {
      tile: { z: 18, x: 101947, y: 101115 },
      size: 256,
    });
    for (const [x, y, ...colour] of expected) {
      const at = 4 * (256 * y + x);
      colour.forEach((value, channel) => {
        expect(Math.abs((rgba[at + channel] ?? 0) - value)).toBeLessThanOrEqual(4);
      });
      expect(rgba[at + 3]).toBe(255);
    }
  });

  test('is clear beyond its edge', async () => {
    const tile = { z: 18, x: 101947 + 100, y: 101115 };
    const rgba = await pictureTile(await open('../../data/demo/picture.tif'), { tile, size: 32 });
    expect(rgba.some((value) => value !== 0)).toBe(false);
  });

  test('seen from far keeps its mean colour', async () => {
    const { pyramid } = await open('../../data/demo/picture.tif');
    const mean = async (pixels: number) => {
      const level = levelOf(pyramid, pixels);
      const { columns, rows } = level;
      const { rgba } = await pyramid.read(level, { column: 0, row: 0, columns, rows });
      let sum = 0;
      for (let at = 0; at < rgba.length; at += 4) sum += rgba[at] ?? 0;
      return (4 * sum) / rgba.length;
    };
    expect(Math.abs((await mean(8)) - (await mean(1)))).toBeLessThan(2);
  });

  test('of another kind is refused by name', async () => {
    const outcome = await openPictureTiff(fileSource(new URL('../../data/demo/dem.tif', import.meta.url)), noJpeg);
    expect(outcome).toMatchObject({
      ok: false,
      problems: [{ code: 'picture-samples', path: 'dem.tif: BitsPerSample', found: '32-bit float' }],
    });
  });

  test('a JPEG block becomes a JPEG file with the shared tables after its start marker', () => {
    // TIFF Technical Note 2: tables and block each run from SOI (FF D8) to EOI (FF D9).
    const tables = Uint8Array.of(0xff, 0xd8, 1, 2, 3, 0xff, 0xd9);
    const block = Uint8Array.of(0xff, 0xd8, 9, 8, 0xff, 0xd9);
    expect([...wholeJpeg(block, tables, false)]).toEqual([0xff, 0xd8, 1, 2, 3, 9, 8, 0xff, 0xd9]);
    expect([...wholeJpeg(block, null, false)]).toEqual([...block]);
  });

  test('a JPEG block is handed to the decoder as a whole file of the size of its tile', async () => {
    const sizes: unknown[] = [];
    const grey: DecodeJpeg = (file) => {
      sizes.push(jpegSize(file));
      return Promise.resolve({ columns: 16, rows: 16, rgba: new Uint8ClampedArray(4 * 16 * 16).fill(128) });
    };
    const outcome = await openPictureTiff(fileSource(new URL('fixtures/jpeg.tif', import.meta.url)), grey);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const { pyramid } = outcome.value;
    const { rgba } = await pyramid.read(levelOf(pyramid, 1), { column: 0, row: 0, columns: 20, rows: 18 });
    expect(rgba.every((value) => value === 128)).toBe(true);
    expect(sizes).toEqual(Array.from({ length: 4 }, () => ({ columns: 16, rows: 16 })));
  });

  test('a JPEG tells its size before it is decoded', () => {
    // Frame header of a 20 × 18 picture as GDAL's JPEG driver writes it, after a comment of four bytes.
    const file = Uint8Array.from([
      0xff, 0xd8, 0xff, 0xfe, 0, 6, 1, 2, 3, 4, 0xff, 0xc0, 0, 0x11, 8, 0, 0x12, 0, 0x14, 3,
    ]);
    expect(jpegSize(file)).toEqual({ columns: 20, rows: 18 });
    expect(jpegSize(file.subarray(0, 12))).toBeNull();
    expect(jpegSize(Uint8Array.of(0xff, 0xd8, 0xff, 0xda, 0, 2))).toBeNull();
  });
});
