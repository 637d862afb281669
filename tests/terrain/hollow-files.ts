import { demEntries, type MadeEntry, makeTiff } from './tiff-maker.ts';

/** The first bytes of a file that is a hole from there on, up to its size. */
export interface HollowFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly size: number;
  /** Why it is refused; `read` where what is broken is a hole. */
  readonly code: string;
}

const SIZE = 4_200_000_000;
const MANY = 1_000_000_000;
const short = (tag: number, value: number): MadeEntry => ({ tag, type: 3, values: [value] });
const long = (tag: number, value: number): MadeEntry => ({ tag, type: 4, values: [value] });
/** An entry that points at the file's fifth byte and claims so many values from there on. */
const claiming = (tag: number, type: number, count: number): MadeEntry => ({ tag, type, values: [8, 8], count });

function hollowDem(name: string, code: string, changes: readonly MadeEntry[]): HollowFile {
  return { name, bytes: makeTiff(demEntries(changes), [new Uint8Array(8)]), size: SIZE, code };
}

function hollowText(name: string, code: string, side: number): HollowFile {
  const head = `ncols ${side}\nnrows ${side}\nxllcorner 500000\nyllcorner 4200000\ncellsize 2\nNODATA_value -9999\n1 2 3`;
  return { name, bytes: new TextEncoder().encode(head), size: SIZE, code };
}

/** One tile of so many cells a side, packed in as many bytes as a number of 32 bits can say and the file has. */
function packedTile(name: string, compression: number, side: number): HollowFile {
  const size = [long(256, side), long(257, side), long(322, side), long(323, side)];
  return hollowDem(name, 'broken-block', [...size, short(259, compression), long(324, 8), long(325, SIZE - 100)]);
}

/** Files of four gigabytes in which every claim lies inside the file, so that only what is made of it can be refused. */
export function hollowFiles(): HollowFile[] {
  return [
    { name: 'nothing but a hole', bytes: new Uint8Array(0), size: SIZE, code: 'not-a-tiff' },
    {
      name: 'a TIFF that is a hole',
      bytes: Uint8Array.of(0x49, 0x49, 42, 0, 8, 0, 0, 0),
      size: SIZE,
      code: 'directory-size',
    },
    {
      name: 'a BigTIFF that is a hole',
      bytes: Uint8Array.of(0x49, 0x49, 43, 0, 8, 0, 0, 0, 16),
      size: SIZE,
      code: 'directory-size',
    },
    hollowDem('a text of a thousand million letters', 'tag-type', [claiming(42112, 2, MANY)]),
    hollowDem('a nodata of a thousand million letters', 'tag-type', [claiming(42113, 2, MANY)]),
    hollowDem('a thousand million keys', 'tag-too-long', [claiming(34735, 3, MANY)]),
    hollowDem('numbers of keys by the hundred million', 'tag-too-long', [claiming(34736, 12, MANY / 10)]),
    hollowDem('a thousand million offsets', 'block-count', [claiming(273, 4, MANY)]),
    hollowDem('a thousand million sample sizes', 'tag-too-long', [claiming(258, 3, MANY), short(277, 2)]),
    // Each strip is a hole with a note, and none of them is looked at before it is asked for.
    hollowDem('a million strips at the start of the file', 'read', [
      long(257, 1e6),
      short(278, 1),
      claiming(273, 4, 1e6),
      claiming(279, 4, 1e6),
    ]),
    ...[
      ['LZW', 5],
      ['DEFLATE', 8],
      ['PackBits', 32773],
      ['LERC', 34887],
      ['ZSTD', 50000],
      ['nothing', 1],
    ].map(([name, code]) => packedTile(`a tile of 4 GB packed by ${name}`, Number(code), 4096)),
    hollowText('a text that goes on as a hole', 'ascii-number', 1000),
    hollowText('a text that goes on as a hole for as many heights as are kept', 'memory', 5000),
  ];
}
