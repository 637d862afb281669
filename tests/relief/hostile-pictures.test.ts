import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { DecodeJpeg } from '../../src/relief/picture/jpeg-size.ts';
import { jpegSize } from '../../src/relief/picture/jpeg-size.ts';
import { openPictureTiff } from '../../src/relief/picture/open-picture.ts';
import { FileRefusal } from '../../src/terrain/bytes/file-refusal.ts';
import { sourceOf } from '../terrain/fixture-files.ts';
import { bombs, cyclic, impossible, seeded } from '../terrain/hostile-corpus.ts';

// A malformed picture is refused in words with its name, or shown: no hang, no other error. The pictures are invented
// (fixtures/README.md); what is impossible in a TIFF is said by TIFF 6.0 (Adobe, 1992).

const NAMES = ['grey', 'jpeg', 'palette', 'rgb-deflate-tiled', 'rgb-lzw-bands', 'rgb-mask', 'rgb-nodata', 'rgba'];
const bytesOf = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`fixtures/${name}.tif`, import.meta.url)));
const failingJpeg: DecodeJpeg = () => Promise.reject(new Error('JPEG decoder: bytes that are no JPEG'));

interface Bad {
  readonly name: string;
  readonly bytes: Uint8Array;
}

function truncated(): Bad[] {
  return NAMES.flatMap((name) => {
    const from = bytesOf(name);
    return [0, 1, 7, 8, 9, 60, 0.2, 0.5, 0.8, 0.99].map((place) => {
      const length = place > 0 && place < 1 ? Math.floor(place * from.length) : place;
      return { name: `${name} cut at ${length}`, bytes: from.slice(0, length) };
    });
  });
}

function flipped(perFile: number): Bad[] {
  const random = seeded(20261128);
  return NAMES.flatMap((name) => {
    const from = bytesOf(name);
    return Array.from({ length: perFile }, (_, i) => {
      const bytes = from.slice();
      for (let k = 0; k < 1 + Math.floor(random() * 4); k++) {
        const at = Math.floor(random() * bytes.length);
        bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(random() * 8));
      }
      return { name: `${name} with bits turned, ${i}`, bytes };
    });
  });
}

async function fateOf({ name, bytes }: Bad): Promise<string> {
  const outcome = await openPictureTiff(sourceOf('bad.tif', bytes), failingJpeg);
  if (outcome.kind !== 'opened') {
    for (const { code, path, found, expected } of outcome.problems) {
      expect(code, name).not.toBe('unreadable');
      expect(path.startsWith('bad.tif'), name).toBe(true);
      expect(found.length * expected.length, name).toBeGreaterThan(0);
    }
    return outcome.kind;
  }
  const { pyramid } = outcome.value;
  const level = pyramid.level(1);
  if (level === null) return 'opened';
  try {
    await pyramid.read(level, { column: 0, row: 0, columns: 20, rows: 18 });
    return 'shown';
  } catch (error) {
    if (!(error instanceof FileRefusal || (error as Error).message.startsWith('JPEG decoder'))) throw error;
    return 'unreadable';
  }
}

async function fates(files: readonly Bad[]): Promise<Map<string, number>> {
  const counts = new Map<string, number>();
  for (const file of files) {
    const fate = await fateOf(file);
    counts.set(fate, (counts.get(fate) ?? 0) + 1);
  }
  return counts;
}

describe('malformed pictures', () => {
  test('cut off anywhere are refused or shown as far as they go', async () => {
    const counts = await fates(truncated());
    expect(counts.get('refused') ?? 0).toBeGreaterThan(60);
  });

  test('with bits turned over are refused or shown', async () => {
    const counts = await fates(flipped(25));
    expect([...counts.values()].reduce((a, b) => a + b, 0)).toBe(25 * NAMES.length);
    expect(counts.get('shown') ?? 0).toBeGreaterThan(0);
    expect((counts.get('refused') ?? 0) + (counts.get('unreadable') ?? 0)).toBeGreaterThan(20);
  });

  test('whose directories are impossible, without end, or that unpack to gigabytes are refused or give nothing', async () => {
    const counts = await fates([...impossible(), ...cyclic(), ...bombs()]);
    expect(counts.get('shown')).toBeUndefined();
  });

  test('a JPEG cut off anywhere has a size or none, and no end of it is waited for', () => {
    const whole = new Uint8Array(readFileSync(new URL('fixtures/plain.jpg', import.meta.url)));
    for (let length = 0; length < Math.min(whole.length, 1200); length += 7) {
      let size: unknown = null;
      try {
        size = jpegSize(whole.slice(0, length));
      } catch (error) {
        if (!(error instanceof FileRefusal)) throw error;
      }
      if (size !== null) expect(size).toEqual(jpegSize(whole));
    }
  });
});
