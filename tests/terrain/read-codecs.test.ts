import { constants, deflateSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { unpackPackBits } from '../../src/terrain/codec/block-codec.ts';
import { unpackDeflate } from '../../src/terrain/codec/inflate.ts';
import { unpackLerc } from '../../src/terrain/codec/lerc.ts';
import { unpackLzw } from '../../src/terrain/codec/lzw.ts';
import { undoDifferences, undoFloatPredictor } from '../../src/terrain/codec/predictor.ts';

/** Bytes with runs and repeats, as the rows of a raster have. */
const rows = fc
  .array(
    fc.oneof(
      fc.uint8Array({ maxLength: 40 }),
      fc
        .tuple(fc.integer({ min: 0, max: 255 }), fc.integer({ min: 1, max: 400 }))
        .map(([byte, count]) => new Uint8Array(count).fill(byte)),
    ),
    { maxLength: 20 },
  )
  .map((parts) => Uint8Array.from(parts.flatMap((part) => [...part])));

describe('DEFLATE', () => {
  const strategies = [
    constants.Z_DEFAULT_STRATEGY,
    constants.Z_HUFFMAN_ONLY,
    constants.Z_RLE,
    constants.Z_FIXED,
    constants.Z_FILTERED,
  ];

  test('what zlib packs comes back, at any level and strategy', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 0, max: 9 }), fc.constantFrom(...strategies), (bytes, level, strategy) => {
        const packed = new Uint8Array(deflateSync(bytes, { level, strategy }));
        expect(unpackDeflate(packed, bytes.length + 1)).toEqual(bytes);
      }),
    );
  });

  test('unpacking stops where it is told to', () => {
    const packed = new Uint8Array(deflateSync(new Uint8Array(1_000_000).fill(7)));
    expect(unpackDeflate(packed, 100)).toEqual(new Uint8Array(100).fill(7));
  });

  test('a changed byte anywhere is told by the check sum or before', () => {
    fc.assert(
      fc.property(rows, fc.nat(), fc.integer({ min: 1, max: 255 }), (bytes, place, change) => {
        const packed = new Uint8Array(deflateSync(bytes));
        // The window size in the first byte may change without changing what comes out, if the header still checks.
        const at = 2 + (place % (packed.length - 2));
        packed[at] = (packed[at] ?? 0) ^ change;
        let out: Uint8Array | null = null;
        try {
          out = unpackDeflate(packed, bytes.length + 1);
        } catch {
          return;
        }
        // More than there should be is refused by the block that asked for it.
        if (out.length <= bytes.length) expect(out).toEqual(bytes);
      }),
    );
  });
});

/** Packs as TIFF 6.0 (Adobe, 1992, section 13) tells a writer to, with codes of growing width. */
function packLzw(bytes: Uint8Array, lastCode: number): Uint8Array {
  const out: number[] = [];
  let held = 0;
  let heldBits = 0;
  let width = 9;
  const put = (code: number) => {
    held = (held << width) | code;
    heldBits += width;
    while (heldBits >= 8) {
      heldBits -= 8;
      out.push((held >>> heldBits) & 255);
    }
    held &= (1 << heldBits) - 1;
  };
  let table = new Map<string, number>();
  let next = 258;
  const clear = () => {
    put(256);
    table = new Map();
    next = 258;
    width = 9;
  };
  clear();
  let prefix = '';
  const codeOf = (run: string) => (run.length === 1 ? run.charCodeAt(0) : (table.get(run) ?? 0));
  for (const byte of bytes) {
    const longer = prefix + String.fromCharCode(byte);
    if (longer.length === 1 || table.has(longer)) {
      prefix = longer;
      continue;
    }
    put(codeOf(prefix));
    table.set(longer, next++);
    if (next === 512 || next === 1024 || next === 2048) width++;
    prefix = String.fromCharCode(byte);
    if (next > lastCode) clear();
  }
  if (prefix !== '') {
    put(codeOf(prefix));
    // The reader adds an entry for this code too, which may widen the next.
    if (next === 511 || next === 1023 || next === 2047) width++;
  }
  put(257);
  if (heldBits > 0) out.push((held << (8 - heldBits)) & 255);
  return Uint8Array.from(out);
}

describe('LZW', () => {
  test('what a writer packs by the book comes back, wherever it clears its table', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 300, max: 4093 }), (bytes, lastCode) => {
        expect(unpackLzw(packLzw(bytes, lastCode), bytes.length + 1)).toEqual(bytes);
      }),
    );
  });

  test('a long raster with a full table comes back', () => {
    const bytes = Uint8Array.from({ length: 60_000 }, (_, i) => (i * i * 31 + (i >> 3)) & 255);
    for (const lastCode of [4093, 600]) expect(unpackLzw(packLzw(bytes, lastCode), bytes.length + 1)).toEqual(bytes);
  });

  test('a code that is not in the table yet is refused', () => {
    // Clear (256), then code 400 in nine bits each.
    expect(() => unpackLzw(Uint8Array.of(0x80, 0x64, 0x00), 10)).toThrow('found code 400');
  });

  test('the bit order used before 1992 is refused by name', () => {
    expect(() => unpackLzw(Uint8Array.of(0x00, 0x01, 0xc0), 10)).toThrow('bit order used before 1992');
  });
});

describe('PackBits', () => {
  test('the example of TIFF 6.0, section 9, unpacks to what is printed there', () => {
    const packed = [0xfe, 0xaa, 0x02, 0x80, 0x00, 0x2a, 0xfd, 0xaa, 0x03, 0x80, 0x00, 0x2a, 0x22, 0xf7, 0xaa];
    const unpacked = [
      0xaa,
      0xaa,
      0xaa,
      0x80,
      0x00,
      0x2a,
      0xaa,
      0xaa,
      0xaa,
      0xaa,
      0x80,
      0x00,
      0x2a,
      0x22,
      ...new Array(10).fill(0xaa),
    ];
    expect([...unpackPackBits(Uint8Array.from(packed), 25)]).toEqual(unpacked);
  });
});

describe('predictors', () => {
  test('horizontal differences of any width come back, band by band', () => {
    for (const [bits, make] of [
      [8, (list: number[]) => Uint8Array.from(list)],
      [16, (list: number[]) => Uint16Array.from(list)],
      [32, (list: number[]) => Uint32Array.from(list)],
    ] as const) {
      for (const samples of [1, 3]) {
        const columns = 7;
        const values = make(Array.from({ length: 2 * columns * samples }, (_, i) => (i * 2654435761) >>> (32 - bits)));
        const packed = values.slice();
        for (let row = 0; row < 2; row++) {
          for (let i = (row + 1) * columns * samples - 1; i >= row * columns * samples + samples; i--) {
            packed[i] = (values[i] ?? 0) - (values[i - samples] ?? 0);
          }
        }
        undoDifferences(new Uint8Array(packed.buffer), { columns, rows: 2, samples, bits });
        expect(packed).toEqual(values);
      }
    }
  });

  test('the floating-point predictor comes back as Technical Note 3 (Adobe, 2005) writes it', () => {
    const values = Float32Array.from([1.5, -2.25, 300.125, 300.25, 0, 1e-3]);
    const view = new DataView(values.buffer);
    const packed = new Uint8Array(24);
    for (let rank = 0; rank < 4; rank++) {
      for (let i = 0; i < 6; i++) packed[rank * 6 + i] = (view.getUint32(4 * i, true) >>> (24 - 8 * rank)) & 255;
    }
    for (let i = 23; i >= 1; i--) packed[i] = (packed[i] ?? 0) - (packed[i - 1] ?? 0);
    const out = undoFloatPredictor(packed, { columns: 6, rows: 1, samples: 1, bits: 32 });
    expect(new Float32Array(out.buffer)).toEqual(values);
  });
});

describe('LERC', () => {
  const shape = { columns: 4, rows: 2, samples: 1, type: 'int16' } as const;

  /**
   * A blob of version 3 whose valid cells all hold 217: header, mask in runs, nothing else. Written from Esri's LERC
   * specification; the check sum by its definition, sums modulo 65 535 of pairs of bytes.
   */
  function constantBlob(maskByte: number): Uint8Array {
    const valid = [...maskByte.toString(2)].filter((bit) => bit === '1').length;
    const blob = new Uint8Array(14 + 24 + 24 + 4 + 5);
    const view = new DataView(blob.buffer);
    blob.set(new TextEncoder().encode('Lerc2 '));
    view.setInt32(6, 3, true);
    for (const [i, value] of [2, 4, valid, 8, blob.length, 2].entries()) view.setInt32(14 + 4 * i, value, true);
    for (const [i, value] of [0.5, 217, 217].entries()) view.setFloat64(38 + 8 * i, value, true);
    view.setInt32(62, 5, true);
    view.setInt16(66, 1, true);
    blob[68] = maskByte;
    view.setInt16(69, -32768, true);
    let low = 0;
    let high = 0;
    for (let i = 14; i < blob.length; i += 2) {
      low = (low + (((blob[i] ?? 0) << 8) | (blob[i + 1] ?? 0))) % 65535;
      high = (high + low) % 65535;
    }
    view.setUint32(10, (((high || 65535) << 16) | (low || 65535)) >>> 0, true);
    return blob;
  }

  test('cells that the mask leaves out have no value', () => {
    const { values, valid } = unpackLerc(constantBlob(0b10110010), shape);
    expect([...valid]).toEqual([1, 0, 1, 1, 0, 0, 1, 0]);
    expect([...values]).toEqual([217, 0, 217, 217, 0, 0, 217, 0]);
  });

  test('a changed byte is told by the check sum', () => {
    for (let at = 14; at < 71; at++) {
      const blob = constantBlob(0b10110010);
      blob[at] = (blob[at] ?? 0) ^ 0x10;
      expect(() => unpackLerc(blob, shape)).toThrow();
    }
  });

  test('a blob of another size or kind of number than the file says is refused', () => {
    const blob = constantBlob(0b10110010);
    for (const other of [{ columns: 2, rows: 4 }, { samples: 2 }, { type: 'uint16' as const }]) {
      expect(() => unpackLerc(blob, { ...shape, ...other })).toThrow('4 × 2 cells of 1 int16');
    }
  });
});
