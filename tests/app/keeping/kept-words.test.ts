import { expect, test } from 'vitest';
import { terrainKept } from '../../../src/app/autosave/kept-files.ts';
import { sizeWords, terrainWords } from '../../../src/app/panels/kept/kept-words.ts';

// The prefixes of the International System (BIPM, SI Brochure, 9th edition, table 7): k is 1000, M is 1 000 000.
test('sizes are told in the thousands of the International System', () => {
  const told = [0, 999, 1000, 1_499_000, 9_949_999, 10_000_000, 64 * 1024 * 1024].map(sizeWords);
  expect(told).toEqual(['0 B', '999 B', '1 kB', '1.5 MB', '9.9 MB', '10 MB', '67 MB']);
});

test('what is kept of the elevation is told apart from what has to be chosen again', () => {
  const reference = (name: string) => ({ name, size: 5000, lastModified: 1 });
  const bytes = new Blob([new Uint8Array(5000)]);
  const files = [
    { reference: reference('a.tif'), handle: null, bytes },
    { reference: { ...reference('b.tif'), address: 'https://elevation.invalid/b.tif' }, handle: null, bytes: null },
    { reference: reference('c.tif'), handle: null, bytes: null },
  ];
  const kept = terrainKept(
    files.map((file) => file.reference),
    files,
  );
  expect(kept).toEqual({ bytes: 5000, elsewhere: 1, named: 1 });
  expect(terrainWords(kept)).toBe(
    '5 kB of elevation kept, 1 file of elevation opened again from where it lies, 1 file of elevation to be chosen again',
  );
  expect(terrainWords(terrainKept([], []))).toBe('no elevation');
  expect(terrainWords(terrainKept([reference('a.tif'), reference('b.tif')], []))).toBe(
    '2 files of elevation to be chosen again',
  );
});
