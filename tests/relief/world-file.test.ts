import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aboutPicture } from '../../src/relief/picture/about-picture.ts';
import { exifSpans } from '../../src/relief/picture/jpeg-exif.ts';
import { openPlainPicture } from '../../src/relief/picture/open-picture.ts';
import { pictureParts } from '../../src/relief/picture/picture-parts.ts';
import { type DecodePicture, plainPictureSize } from '../../src/relief/picture/plain-picture.ts';
import { FileRefusal } from '../../src/terrain/bytes/file-refusal.ts';
import { crsBeside } from '../../src/terrain/georeference/crs-beside.ts';
import { readWorldFile } from '../../src/terrain/georeference/world-file.ts';

function refusalOf(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    if (error instanceof FileRefusal) return error.problem;
    throw error;
  }
  return null;
}

describe('a world file', () => {
  // `gdalinfo -json` (GDAL 3.6.2) on a JPEG of 20 × 18 pixels beside a .jgw of the text: its geoTransform [c, a, b, f, d, e].
  test.each([
    ['north up', '0.5\n0\n0\n-0.5\n412350.25\n4206599.75\n', [412350, 0.5, 0, 4206600, 0, -0.5]],
    [
      'turned by 30 degrees',
      '0.4330127018922194\n-0.25\n-0.25\n-0.4330127018922194\n412350.25\n4206599.75\n',
      [412350.15849364904, 0.4330127018922194, -0.25, 4206600.091506351, -0.25, -0.4330127018922194],
    ],
    [
      'in degrees, with exponents, spaces and line ends of DOS',
      '  2.5E-06\r\n0.0\r\n0.0\r\n-2.5e-06\r\n-40.00237\r\n38.0055\r\n',
      [-40.002371249999996, 2.5e-6, 0, 38.005501249999995, 0, -2.5e-6],
    ],
  ])('%s places pixels where GDAL has them', (_, text, [c = 0, a = 0, b = 0, f = 0, d = 0, e = 0]) => {
    const read = readWorldFile(text);
    expect(read.c).toBeCloseTo(c, 9);
    expect(read.f).toBeCloseTo(f, 9);
    expect([read.a, read.b, read.d, read.e]).toEqual([a, b, d, e]);
  });

  test('gives the middle of the first pixel, whatever the turn', () => {
    const step = fc.double({ min: -5, max: 5, noNaN: true });
    const place = fc.double({ min: -1e7, max: 1e7, noNaN: true });
    fc.assert(
      fc.property(step, step, step, step, place, place, (a, d, b, e, x, y) => {
        fc.pre(a * e - b * d !== 0);
        const read = readWorldFile([a, d, b, e, x, y].join('\n'));
        expect(0.5 * read.a + 0.5 * read.b + read.c).toBeCloseTo(x, 6);
        expect(0.5 * read.d + 0.5 * read.e + read.f).toBeCloseTo(y, 6);
      }),
    );
  });

  test('may have commas for points', () => {
    expect(readWorldFile('0,5\n0\n0\n-0,5\n412350,25\n4206599,75')).toMatchObject({ a: 0.5, c: 412350 });
  });

  test.each([
    ['five lines', '0.5\n0\n0\n-0.5\n412350.25', '5 lines'],
    ['seven lines', '1\n0\n0\n-1\n0\n0\n0', '7 lines'],
    ['a word', '0.5\n0\n0\nminus\n1\n2', '“minus”'],
    ['a number beyond all', '1e999\n0\n0\n-1\n1\n2', '“1e999”'],
    ['hexadecimal digits', '0x10\n0\n0\n-1\n1\n2', '“0x10”'],
    ['pixels without an area', '0.5\n0.5\n0.5\n0.5\n1\n2', 'the steps 0.5, 0.5 and 0.5, 0.5'],
    ['nothing', '', '0 lines'],
    ['a picture', 'n'.repeat(5000), '5000 letters'],
  ])('with %s is refused', (_, text, found) => {
    expect(refusalOf(() => readWorldFile(text))).toMatchObject({ code: 'world-file', found });
  });
});

describe('the files of a picture', () => {
  const named = (...names: string[]) => names.map((name) => ({ name }));

  test.each([
    ['photo.jpg', 'photo.jgw', 'photo.prj'],
    ['photo.JPG', 'photo.jpgw', 'photo.jpg.aux.xml'],
    ['photo.png', 'photo.pgw', 'photo.aux.xml'],
    ['photo.tif', 'photo.tfw', 'photo.prj'],
    ['photo.jpeg', 'photo.wld', 'PHOTO.prj'],
  ])('%s, %s and %s are found in any order', (picture, world, crs) => {
    for (const files of [named(picture, world, crs), named(crs, world, picture)]) {
      expect(pictureParts(files)).toMatchObject({
        picture: { name: picture },
        world: { name: world },
        crs: { name: crs },
      });
    }
  });

  test.each([
    [['photo.jpg'], 'picture-half', /photo\.jgw/],
    [['photo.png'], 'picture-half', /photo\.pgw/],
    [['photo.jgw'], 'picture-half', /picture that photo\.jgw belongs to/],
    [['photo.jpg', 'other.jgw'], 'picture-files', /companion of photo\.jpg/],
    [['photo.jpg', 'other.jpg', 'photo.jgw'], 'picture-files', /one picture/],
    [['photo.jpg', 'photo.jgw', 'photo.wld'], 'picture-files', /one world file/],
    [['photo.jpg', 'photo.jgw', 'photo.gif'], 'picture-files', /TIFF, JPEG or PNG/],
  ])('%j are refused with what is missing or too much', (names, code, expected) => {
    expect(refusalOf(() => pictureParts(named(...names)))).toMatchObject({
      code,
      expected: expect.stringMatching(expected),
    });
  });
});

describe('the coordinate system beside a picture', () => {
  // gdalsrsinfo -o wkt_esri EPSG:32624
  const esri =
    'PROJCS["WGS_1984_UTM_Zone_24N",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",-39.0],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]';
  // The head of the .aux.xml that gdal_translate -of JPEG writes for EPSG:32624, its datum cut short.
  const metadata = `<PAMDataset>\n  <SRS dataAxisToSRSAxisMapping="1,2">PROJCS["WGS 84 / UTM zone 24N",GEOGCS["WGS 84",AUTHORITY["EPSG","4326"]],AXIS["Northing",NORTH],AUTHORITY["EPSG","32624"]]</SRS>\n</PAMDataset>`;

  test('is read from a projection file as Esri writes it, from WKT with a code, and from GDAL’s metadata', () => {
    const utm = { kind: 'epsg', code: 32624 };
    expect(crsBeside('photo.prj', esri)).toEqual(utm);
    expect(crsBeside('photo.prj', 'EPSG:32624\n')).toEqual(utm);
    expect(crsBeside('photo.jpg.aux.xml', metadata)).toEqual(utm);
    expect(crsBeside('photo.jpg.aux.xml', metadata.replaceAll('"', '&quot;'))).toEqual(utm);
  });

  test('is asked for where the metadata holds statistics only, and never taken from a part of the text', () => {
    expect(crsBeside('photo.aux.xml', '<PAMDataset><Metadata/></PAMDataset>')).toBeNull();
    const local = 'LOCAL_CS["site grid",UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST]]';
    expect(refusalOf(() => crsBeside('photo.prj', local))).toMatchObject({
      code: 'crs',
      expected: expect.stringContaining('leave this file out'),
    });
  });
});

describe('a JPEG or PNG', () => {
  const jpeg = new Uint8Array(readFileSync(new URL('fixtures/plain.jpg', import.meta.url)));
  const png = (columns: number, rows: number) => {
    const head = new Uint8Array(33);
    head.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
    new DataView(head.buffer).setUint32(16, columns);
    new DataView(head.buffer).setUint32(20, rows);
    return head;
  };

  test('tells its size before it is decoded; more than 64 million pixels are refused', () => {
    expect(plainPictureSize(jpeg)).toEqual({ columns: 20, rows: 18 });
    expect(plainPictureSize(png(8000, 8000))).toEqual({ columns: 8000, rows: 8000 });
    for (const [columns, rows] of [
      [8001, 8000],
      [30_001, 2],
      [4_000_000_000, 4_000_000_000],
    ] as const) {
      expect(refusalOf(() => plainPictureSize(png(columns, rows)))).toMatchObject({ code: 'picture-size' });
    }
    for (const head of [new Uint8Array(0), jpeg.subarray(0, 40), png(0, 5), new TextEncoder().encode('GIF89a')]) {
      expect(refusalOf(() => plainPictureSize(head))).toMatchObject({ code: 'picture-kind' });
    }
  });

  test('loses its camera data, which would turn it, and nothing else', () => {
    // Exif 2.32, CIPA DC-008, 2019, 4.5.4: APP1 (FF E1), its length, "Exif" and two zeros.
    const exif = [0xff, 0xe1, 0, 10, 0x45, 0x78, 0x69, 0x66, 0, 0, 1, 2];
    const other = [0xff, 0xe1, 0, 6, 0x68, 0x74, 0x74, 0x70];
    const file = Uint8Array.from([0xff, 0xd8, ...other, ...exif, ...jpeg.subarray(2)]);
    expect(exifSpans(file)).toEqual([{ from: 10, to: 22 }]);
    expect(exifSpans(jpeg)).toEqual([]);
    expect(exifSpans(new Uint8Array(0))).toEqual([]);
  });

  const source = {
    name: 'plain.jpg',
    size: jpeg.length,
    read: (slices: readonly { offset: number; length: number }[]) =>
      Promise.resolve(slices.map(({ offset, length }) => jpeg.slice(offset, offset + length))),
  };
  const grey: DecodePicture = (size) =>
    Promise.resolve({
      ...size,
      read: (window) =>
        Promise.resolve({ ...window, rgba: new Uint8ClampedArray(4 * window.columns * window.rows).fill(128) }),
    });
  const affine = readWorldFile('0.5\n0\n0\n-0.5\n412000.25\n4206899.75');

  test('lies where its world file and its coordinate system put it', async () => {
    const opened = await openPlainPicture(source, grey, { affine, crs: { kind: 'epsg', code: 32624 } });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const about = aboutPicture(opened.value);
    // cs2cs EPSG:32624 EPSG:4326 at 412000 4206900 (printed to 1e-8 degree).
    expect(about?.outline[0]?.lon).toBeCloseTo(-40.00237087, 7);
    expect(about?.outline[0]?.lat).toBeCloseTo(38.00550669, 7);
    expect(about?.pixel.width).toBeCloseTo(0.5, 3);
  });

  test('without a coordinate system is asked for it, with where its corners lie', async () => {
    expect(await openPlainPicture(source, grey, { affine })).toMatchObject({
      kind: 'question',
      question: { about: 'crs', file: 'plain.jpg', corners: [412000, 4206891, 412010, 4206900] },
    });
    expect(await openPlainPicture(source, grey, { affine, answeredCrs: 32624 })).toMatchObject({ kind: 'opened' });
  });

  test('that cannot be decoded, or turns out to have another size, is refused', async () => {
    const crs = { kind: 'epsg', code: 32624 } as const;
    const broken: DecodePicture = () => Promise.reject(new Error('the source image could not be decoded'));
    const other: DecodePicture = (size) => grey({ columns: size.rows, rows: size.columns });
    for (const decode of [broken, other]) {
      expect(await openPlainPicture(source, decode, { affine, crs })).toMatchObject({
        kind: 'refused',
        problems: [{ code: 'picture-decode', path: 'plain.jpg' }],
      });
    }
  });
});
