import { describe, expect, test } from 'vitest';
import { usualDriveSizes } from '../../src/ram/cycle/drive-sizes.ts';
import { type SizingQuestion, sizeTable } from '../../src/ram/cycle/size-table.ts';
import { litresAMinute } from './example-ram.ts';

const question: SizingQuestion = {
  fall: 2.4,
  deliveryHead: 15,
  available: 20 / litresAMinute,
  driveLength: null,
  entranceLoss: 0.5,
  bendLoss: 1,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  checkLag: 0.003,
  yieldFactor: 1,
  sizes: usualDriveSizes,
  waveSpeed: () => 1400,
  darcyFactor: () => 0.03,
};

const keepsRules = (inches: string, driveLength: number, fall = 2.4) =>
  sizeTable({ ...question, fall, driveLength }).rows.find((row) => row.size.inches === inches)?.lengthKeepsRules;

describe('the length of a drive pipe', () => {
  // L/D 150 to 1000 (Calvert, as printed by Virtual Labs NITK Surathkal); 5 to 10 falls (Trullinger, USDA, 1914, p. 27).
  test('keeps both rules up to ten falls and no further', () => {
    // 1-1/4 in, bore 1.380 in (ASTM A53): 35 m by its bore, 24 m by a fall of 2.4 m.
    expect(keepsRules('1 1/4', 23.9)).toBe(true);
    expect(keepsRules('1 1/4', 24.1)).toBe(false);
    expect(keepsRules('1 1/4', 30)).toBe(false);
  });

  test('keeps both rules from five falls on', () => {
    expect(keepsRules('1 1/4', 11.9)).toBe(false);
    expect(keepsRules('1 1/4', 12.1)).toBe(true);
  });

  test('keeps both rules up to a thousand bores and from a hundred and fifty on', () => {
    // 3/8 in, bore 0.493 in: 12.52 m. 4 in, bore 4.026 in: 15.34 m.
    expect(keepsRules('3/8', 12.45)).toBe(true);
    expect(keepsRules('3/8', 12.6)).toBe(false);
    expect(keepsRules('4', 15.2)).toBe(false);
    expect(keepsRules('4', 15.5)).toBe(true);
  });
});

describe('a second pump', () => {
  /** What two pumps of 1 in bring over what one of them does, and which is chosen; there are no other sizes to be had. */
  function choice(litres: number) {
    const sizes = usualDriveSizes.filter(({ inches }) => inches === '1');
    const { rows, answer } = sizeTable({ ...question, sizes, available: litres / litresAMinute });
    const [row] = rows;
    return { gain: (2 * (row?.halfRun?.delivery ?? 0)) / (row?.run?.delivery ?? 0), kind: answer.kind };
  }
  const choices = Array.from({ length: 80 }, (_, k) => choice(5 + k));

  test('is bought when it brings a quarter more than one, and not for less', () => {
    // Common practice, no source.
    const little = choices.filter(({ gain }) => gain > 1.06 && gain < 1.24);
    const much = choices.filter(({ gain }) => gain > 1.26);
    expect(little.length).toBeGreaterThan(1);
    expect(much.length).toBeGreaterThan(1);
    expect(new Set(little.map(({ kind }) => kind))).toEqual(new Set(['one']));
    expect(new Set(much.map(({ kind }) => kind))).toEqual(new Set(['two-side-by-side']));
  });
});
