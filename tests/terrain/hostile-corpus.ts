import { deflateSync } from 'node:zlib';
import { fixtureBytes } from './fixture-files.ts';
import {
  COLUMNS,
  demEntries,
  HEIGHTS,
  type MadeEntry,
  makeDem,
  makeTiff,
  packed,
  ROWS,
  UTM_KEYS,
} from './tiff-maker.ts';

/** A malformed file and what is wrong with it. */
export interface HostileFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** The file it was made from, whose heights are the only ones it may give; null where it may give none. */
  readonly from: Uint8Array | null;
}

/** Marsaglia's xorshift, from memory: the same files in every run. */
export function seeded(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/** Files whose blocks carry a check sum, so that a changed bit in them can be told. */
const CHECKED = ['little-float32-deflate-p3', 'big-float32-deflate-p1', 'lerc-float32-nan', 'little-uint16-deflate-p2'];
const ALL = [
  ...CHECKED,
  'little-float32-lzw-p2',
  'little-float32-zstd-p3',
  'little-bigtiff-float32-lzw-p3',
  'mask-deflate',
];

/** Cut off at places spread over the file. */
export function truncated(): HostileFile[] {
  return ALL.flatMap((name) => {
    const from = fixtureBytes(name);
    return [0, 1, 4, 8, 15, 16, 40, 200, 0.3, 0.5, 0.7, 0.9, 0.99].map((place) => {
      const length = place < 1 && place > 0 ? Math.floor(from.length * place) : place;
      return { name: `${name} cut at ${length}`, bytes: from.slice(0, length), from };
    });
  });
}

/** Where the first block lies: a directory says with nothing that a bit of it is wrong. */
function blocksAt(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = bytes[0] === 0x49;
  const start = directoryAt(bytes);
  for (let entry = start + 2; entry < start + 2 + 12 * view.getUint16(start, little); entry += 12) {
    const tag = view.getUint16(entry, little);
    if (tag !== 273 && tag !== 324) continue;
    const value = view.getUint32(entry + 8, little);
    return view.getUint32(entry + 4, little) === 1 ? value : view.getUint32(value, little);
  }
  throw new Error('a directory without blocks');
}

/** One to four bits of the blocks turned over. */
export function flipped(perFile: number): HostileFile[] {
  const random = seeded(20260907);
  return CHECKED.flatMap((name) => {
    const from = fixtureBytes(name);
    return Array.from({ length: perFile }, (_, i) => {
      const bytes = from.slice();
      const flips = 1 + Math.floor(random() * 4);
      const first = blocksAt(from);
      for (let k = 0; k < flips; k++) {
        const at = first + Math.floor(random() * (bytes.length - first));
        bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(random() * 8));
      }
      return { name: `${name} with bits turned, ${i}`, bytes, from };
    });
  });
}

/** Whole fields of the directory overwritten with numbers that programs trip over. */
export function overwritten(perFile: number): HostileFile[] {
  const random = seeded(471);
  const awkward = [0, 1, 0x7f, 0x80, 0xff, 0xff];
  return ALL.flatMap((name) => {
    const from = fixtureBytes(name);
    const start = directoryAt(from);
    return Array.from({ length: perFile }, (_, i) => {
      const bytes = from.slice();
      const at = start + Math.floor(random() * Math.min(300, bytes.length - start - 4));
      for (let k = 0; k < 4; k++) bytes[at + k] = awkward[Math.floor(random() * awkward.length)] ?? 0;
      return { name: `${name} with a field overwritten, ${i}`, bytes, from };
    });
  });
}

function directoryAt(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = bytes[0] === 0x49;
  return view.getUint16(2, little) === 43 ? view.getUint32(little ? 8 : 12, little) : view.getUint32(4, little);
}

const short = (tag: number, ...values: number[]): MadeEntry => ({ tag, type: 3, values });
const long = (tag: number, ...values: number[]): MadeEntry => ({ tag, type: 4, values });
const double = (tag: number, ...values: number[]): MadeEntry => ({ tag, type: 12, values });

/** What a directory cannot say, with the code of the refusal that it must meet. */
export const IMPOSSIBLE: readonly (readonly [what: string, changes: readonly MadeEntry[], code: string])[] = [
  ['no columns', [short(256, 0)], 'raster-size'],
  ['no rows', [long(257, 0)], 'raster-size'],
  ['four thousand million columns', [long(256, 0xffffffff)], 'raster-size'],
  ['four thousand million rows', [long(257, 0xffffffff)], 'raster-size'],
  ['more rows than strips', [short(257, ROWS * 3)], 'block-count'],
  ['a hundred thousand strips of one row that are not there', [long(257, 100000), short(278, 1)], 'block-count'],
  ['no rows in a strip', [short(278, 0)], 'strip-size'],
  ['samples of 7 bits', [short(258, 7)], 'sample-size'],
  ['samples of 20 bits', [short(258, 20), short(339, 1)], 'sample-size'],
  ['floating point of 16 bits', [short(258, 16)], 'sample-size'],
  ['whole numbers of 64 bits', [short(258, 64), short(339, 2)], 'sample-size'],
  ['complex numbers', [short(339, 6)], 'sample-format'],
  ['samples of no kind', [short(339, 9)], 'sample-format'],
  ['samples of different sizes', [short(258, 32, 16), short(277, 2)], 'mixed-samples'],
  ['no samples', [short(277, 0)], 'sample-count'],
  ['65 535 samples', [short(277, 65535)], 'sample-count'],
  [
    'an unknown planar configuration',
    [short(277, 2), short(258, 32, 32), short(339, 3, 3), short(284, 7)],
    'planar-configuration',
  ],
  ['an unknown compression', [short(259, 9999)], 'compression'],
  ['fax compression', [short(259, 4)], 'compression'],
  ['JPEG compression', [short(259, 7)], 'compression'],
  ['LZMA compression', [short(259, 34925)], 'compression'],
  ['an unknown predictor', [short(317, 9)], 'predictor'],
  ['the floating-point predictor on whole numbers', [short(317, 3), short(339, 1)], 'predictor'],
  ['tiles of no size', [short(322, 0), short(323, 0), long(324, 8), long(325, 10)], 'tile-size'],
  ['tiles a million cells wide', [long(322, 1000000), short(323, 16), long(324, 8), long(325, 10)], 'tile-size'],
  ['tiles of 8192 × 8192 cells', [short(322, 8192), short(323, 8192), long(324, 8), long(325, 10)], 'block-size'],
  ['tiles of one cell', [short(322, 1), short(323, 1), long(324, 8), long(325, 10)], 'tile-size'],
  ['rows from the bottom', [short(274, 4)], 'cell-order'],
  ['low bits first', [short(266, 2)], 'cell-order'],
  ['fewer offsets than tiles', [short(322, 8), short(323, 8), long(324, 8), long(325, 10)], 'block-count'],
  ['a strip beyond the end of the file', [long(273, 0x7fffffff)], 'outside-file'],
  ['a strip longer than the file', [long(279, 0x7fffffff)], 'outside-file'],
  ['a strip at the very start of the file', [long(273, 0)], 'outside-file'],
  [
    'offsets that claim five hundred million entries',
    [{ tag: 273, type: 4, values: [8, 8], count: 500_000_000 }],
    'outside-file',
  ],
  [
    'a text that claims four thousand million letters',
    [{ tag: 42113, type: 2, values: '-9999\0', count: 0xfffffff0 }],
    'outside-file',
  ],
  ['offsets that are text', [{ tag: 273, type: 2, values: 'abcd' }], 'tag-type'],
  ['a width that is a fraction', [{ tag: 256, type: 12, values: [12.5] }], 'raster-size'],
  ['a width that is not a number', [{ tag: 256, type: 12, values: [Number.NaN] }], 'raster-size'],
  ['cells of no size', [double(33550, 0, 0, 0)], 'no-georeferencing'],
  ['cells of a size that is not a number', [double(33550, Number.NaN, 2, 0)], 'affine'],
  ['cells of endless size', [double(33550, Number.POSITIVE_INFINITY, 2, 0)], 'affine'],
  ['cells of a millionth of a metre', [double(33550, 1e-6, 1e-6, 0)], 'cell-size'],
  ['cells of a thousand kilometres', [double(33550, 1e6, 1e6, 0)], 'cell-size'],
  ['a corner that is not a number', [double(33922, 0, 0, 0, Number.NaN, 0, 0)], 'affine'],
  ['a corner beyond the earth', [double(33922, 0, 0, 0, 1e12, 0, 0)], 'off-the-earth'],
  [
    'a latitude of 400 degrees',
    [
      short(34735, 1, 1, 0, 2, 1024, 0, 1, 2, 2048, 0, 1, 4326),
      double(33550, 1e-4, 1e-4, 0),
      double(33922, 0, 0, 0, 10, 400, 0),
    ],
    'off-the-earth',
  ],
  ['geocentric coordinates', [short(34735, 1, 1, 0, 2, 1024, 0, 1, 3, 3072, 0, 1, 32630)], 'crs'],
  ['more keys than the key directory holds', [short(34735, 1, 1, 0, 900, 1024, 0, 1, 1)], 'geo-keys'],
  [
    'a key that points beyond its numbers',
    [short(34735, ...UTM_KEYS.slice(0, 12), 2057, 34736, 1, 40), double(34736, 1)],
    'geo-keys',
  ],
  ['a nodata that is no number', [{ tag: 42113, type: 2, values: 'none of these\0' }], 'no-data'],
  [
    'a scale of nothing',
    [{ tag: 42112, type: 2, values: '<Item name="SCALE" sample="0" role="scale">0</Item>' }],
    'scale',
  ],
  [
    'a scale that is no number',
    [{ tag: 42112, type: 2, values: '<Item name="SCALE" sample="0" role="scale">wide</Item>' }],
    'scale',
  ],
  [
    'an unknown vertical unit',
    [{ tag: 42112, type: 2, values: '<Item name="UNITTYPE" sample="0" role="unittype">furlong</Item>' }],
    'vertical-unit',
  ],
];

export function impossible(): HostileFile[] {
  return IMPOSSIBLE.map(([name, changes]) => ({ name, bytes: makeDem(changes), from: null }));
}

/** Directories that follow one another in ways that never end. */
export function cyclic(): HostileFile[] {
  const plain = makeDem();
  const view = new DataView(plain.buffer);
  const directory = view.getUint32(4, true);
  const after = directory + 2 + 12 * view.getUint16(directory, true);
  const itself = plain.slice();
  new DataView(itself.buffer).setUint32(after, directory, true);
  const header = plain.slice();
  new DataView(header.buffer).setUint32(after, 0, true);
  new DataView(header.buffer).setUint32(4, 0xfffffff0, true);
  return [
    { name: 'a directory that follows itself', bytes: itself, from: null },
    { name: 'a first directory beyond the file', bytes: header, from: null },
    { name: 'a hundred directories in a row', bytes: chain(100), from: null },
    { name: 'two directories that follow each other', bytes: chain(2, true), from: null },
  ];
}

/** Tiny directories one after the other, the last one leading back to the first if asked. */
function chain(count: number, round = false): Uint8Array {
  const bytes = new Uint8Array(8 + count * 18);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49, 42, 0]);
  view.setUint32(4, 8, true);
  for (let i = 0; i < count; i++) {
    const at = 8 + 18 * i;
    view.setUint16(at, 1, true);
    view.setUint16(at + 2, 254, true);
    view.setUint16(at + 4, 4, true);
    view.setUint32(at + 6, 1, true);
    view.setUint32(at + 10, 1, true);
    view.setUint32(at + 14, i + 1 < count ? at + 18 : round ? 8 : 0, true);
  }
  return bytes;
}

/** Small blocks that unpack to far more than their raster, or to less. */
export function bombs(): HostileFile[] {
  const strip = (compression: number, block: Uint8Array, name: string): HostileFile => ({
    name,
    bytes: makeTiff(demEntries([short(259, compression)]), [block]),
    from: null,
  });
  const manyZeros = new Uint8Array(deflateSync(new Uint8Array(64 * 1024 * 1024)));
  const runs = Uint8Array.from({ length: 2_000_000 }, (_, i) => (i % 2 === 0 ? 129 : 0x7f));
  return [
    strip(8, manyZeros, 'DEFLATE that unpacks to 64 MB'),
    strip(32773, runs, 'PackBits that unpacks to 128 MB'),
    strip(50000, zstdRuns(20_000), 'ZSTD that unpacks to 2.5 GB'),
    strip(50000, zstdRepeats(), 'ZSTD whose sequences repeat without end'),
    strip(
      5,
      Uint8Array.from({ length: 500_000 }, (_, i) => (128 + i * 37) & 255),
      'LZW of nonsense',
    ),
    strip(8, packed(HEIGHTS.subarray(0, 60)), 'DEFLATE that unpacks to half the raster'),
    strip(5, Uint8Array.of(0x80, 0x40, 0x40), 'LZW that ends at once'),
    strip(50000, Uint8Array.of(0x28, 0xb5, 0x2f, 0xfd, 0x20, 0x00, 1, 0, 0), 'ZSTD of nothing'),
    strip(8, Uint8Array.of(0x78, 0x9c, 0xff, 0xff, 0xff, 0xff), 'DEFLATE of nonsense'),
    strip(
      34887,
      Uint8Array.from('Lerc2 nonsense', (c) => c.charCodeAt(0)),
      'LERC of nonsense',
    ),
    {
      name: 'a raster of a million by a million cells in one strip',
      bytes: makeTiff(demEntries([long(256, 1e6), long(257, 1e6), long(278, 1e6)]), [packed(HEIGHTS)]),
      from: null,
    },
    {
      name: 'an uncompressed raster of a million by a million cells',
      bytes: makeTiff(demEntries([long(256, 1e6), long(257, 1e6), long(278, 1e6), short(259, 1)]), [
        new Uint8Array(480),
      ]),
      from: null,
    },
  ];
}

/** ZSTD blocks of one repeated byte, 128 kB each from four bytes. */
function zstdRuns(blocks: number): Uint8Array {
  const bytes = new Uint8Array(6 + 4 * blocks);
  bytes.set([0x28, 0xb5, 0x2f, 0xfd, 0x00, 0x58]);
  for (let i = 0; i < blocks; i++) {
    const head = (131072 << 3) | (1 << 1) | (i + 1 === blocks ? 1 : 0);
    bytes.set([head & 255, (head >> 8) & 255, (head >> 16) & 255, 0x41], 6 + 4 * i);
  }
  return bytes;
}

/** Four bytes as they are, then a ZSTD block of 98 047 sequences of 34 bytes each, coded in no bits at all. */
function zstdRepeats(): Uint8Array {
  // No literals, then the count of sequences (255 and two bytes), tables of one symbol each, and an end mark.
  const block = [0, 255, 255, 255, 0b01010100, 0, 0, 31, 0x01];
  const head = (block.length << 3) | (2 << 1) | 1;
  return Uint8Array.from([
    0x28,
    0xb5,
    0x2f,
    0xfd,
    0x00,
    0x58,
    4 << 3,
    0,
    0,
    1,
    2,
    3,
    4,
    head & 255,
    head >> 8,
    0,
    ...block,
  ]);
}

/** The whole raster, which every file of the corpus is read as far as it says it reaches. */
export const WHOLE = { column: 0, row: 0, columns: COLUMNS, rows: ROWS } as const;
