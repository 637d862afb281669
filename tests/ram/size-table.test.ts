import { describe, expect, it } from 'vitest';
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

describe('choosing a drive size', () => {
  it('has one row for each usual size, each with its intake, lengths and verdict', () => {
    const { rows } = sizeTable(question);
    expect(rows.map((row) => row.size.inches)).toEqual(usualDriveSizes.map((size) => size.inches));
    for (const row of rows) {
      expect(row.intake?.least).toBeLessThan(row.intake?.most ?? 0);
      expect(row.length).toBe(row.lengths.usual);
      if (row.verdict === 'needs-more-water') expect(row.run).toBeNull();
      else expect(row.run?.driveFlow).toBeLessThanOrEqual(question.available);
    }
  });

  it('takes more with every size, and the sizes in turn leave water, suit, and need more', () => {
    const { rows } = sizeTable(question);
    const most = rows.map((row) => row.intake?.most ?? 0);
    expect(most).toEqual(most.toSorted((a, b) => a - b));
    const order = ['leaves-water', 'suits', 'needs-more-water'];
    const places = rows.map((row) => order.indexOf(row.verdict));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(new Set(places).size).toBe(3);
  });

  it('prefers the smallest size that delivers nearly as much as any', () => {
    const { rows, answer } = sizeTable(question);
    if (answer.kind !== 'one') throw new Error(answer.kind);
    const best = Math.max(...rows.map((row) => row.run?.delivery ?? 0));
    expect(answer.delivery).toBeGreaterThanOrEqual(0.9 * best);
    const smaller = rows.slice(0, usualDriveSizes.indexOf(answer.size));
    for (const row of smaller) expect(row.run?.delivery ?? 0).toBeLessThan(0.9 * best);
  });

  it('answers none when even the smallest needs more water', () => {
    expect(sizeTable({ ...question, available: 0.5 / litresAMinute }).answer).toEqual({
      kind: 'none',
      because: 'too-little-water',
    });
  });

  it('answers none, with the reason, when no size lifts so high', () => {
    const { rows, answer } = sizeTable({ ...question, waveSpeed: () => 250, deliveryHead: 120 });
    expect(answer).toEqual({ kind: 'none', because: 'delivery-head-too-high' });
    expect(new Set(rows.map((row) => row.verdict))).toEqual(new Set(['does-not-run']));
  });

  it('answers two side by side when one of the largest leaves most of the water', () => {
    const answer = sizeTable({ ...question, available: 1200 / litresAMinute }).answer;
    expect(answer).toMatchObject({ kind: 'two-side-by-side', size: { inches: '4' } });
  });

  it('answers no pump needed when the outlet lies below the source', () => {
    expect(sizeTable({ ...question, deliveryHead: 2 })).toEqual({ rows: [], answer: { kind: 'no-pump-needed' } });
  });

  it('delivers less after a measured run has calibrated it', () => {
    const asModelled = sizeTable(question).rows[3]?.run;
    const calibrated = sizeTable({ ...question, yieldFactor: 0.7 }).rows[3]?.run;
    expect((calibrated?.delivery ?? 0) / (asModelled?.delivery ?? 1)).toBeCloseTo(0.7, 12);
    expect(calibrated?.driveFlow).toBe(asModelled?.driveFlow);
  });

  it('warns of a drive pipe that breaks a rule of length, and does not forbid it', () => {
    const short = sizeTable({ ...question, driveLength: 8 }).rows[3];
    expect(short?.lengthKeepsRules).toBe(false);
    expect(short?.run).not.toBeNull();
    expect(sizeTable({ ...question, driveLength: 16 }).rows[3]?.lengthKeepsRules).toBe(true);
  });
});

describe('the usual sizes', () => {
  it('run from 3/8 in to 4 in with the bores of Schedule 40 steel pipe', () => {
    // ASTM A53 / ASME B36.10M: outside diameters 0.675 in to 4.500 in, walls 0.091 in to 0.237 in.
    const first = usualDriveSizes[0];
    const last = usualDriveSizes.at(-1);
    expect(first).toMatchObject({ inches: '3/8', nominal: 10 });
    expect(last).toMatchObject({ inches: '4', nominal: 100 });
    expect(first?.bore).toBeCloseTo((0.675 - 2 * 0.091) * 0.0254, 5);
    expect(last?.bore).toBeCloseTo((4.5 - 2 * 0.237) * 0.0254, 5);
  });
});
