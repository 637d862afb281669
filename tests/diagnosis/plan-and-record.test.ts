import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawsFor } from '../../src/diagnosis/diagnose.ts';
import { calibratedField } from '../../src/diagnosis/model/calibrated.ts';
import { CAUSES } from '../../src/diagnosis/model/causes.ts';
import { readingsOf } from '../../src/diagnosis/model/field-ram.ts';
import { noReadings } from '../../src/diagnosis/model/readings.ts';
import { EVIDENCE, priorsOfPlan } from '../../src/diagnosis/ranking/priors-of-plan.ts';
import { FINDINGS } from '../../src/evaluation/findings/catalogue.ts';
import { causesTable } from './share-document.ts';
import { fieldOf, litres, R50 } from './simulated-rams.ts';

describe('a record calibrates the ram', () => {
  /**
   * The one published measurement of a single ram with its dimensions: L. F. Allen, Rural Architecture, 1852: 60 ft of 1 in
   * under 4 ft, 19 ft high, 25 gal wasted and 3.25 gal delivered in 10 min.
   */
  it.each([
    { who: 'Allen 1852', bore: 0.0254, length: 18.29, fall: 1.219, head: 5.791, intake: 10.69, delivered: 1.23 },
  ])('$who: the model then takes what was taken', ({ bore, length, fall, head, intake, delivered }) => {
    const shape = {
      bore,
      length,
      fall: 1.5,
      lift: 8,
      weightHead: 0.1,
      stroke: 0.005,
      checkLag: 0.004,
      airChamber: 0.004,
      wasteValveLoss: 6,
      checkValveLoss: 4,
      darcyFactor: 0.03,
      line: { length: 50, bore: bore / 2 },
    };
    const record = {
      ...noReadings,
      state: 'runs' as const,
      waste: (intake - delivered) / 60_000,
      deliveryAtPump: delivered / 60_000,
      gaugeRest: head,
      level: fall,
    };
    const field = calibratedField(fieldOf(shape), record);
    expect(field.fall).toBe(fall);
    expect(field.lift).toBe(head);
    const read = readingsOf(field);
    expect(Math.abs(litres(read.waste) + litres(read.deliveryAtPump) - intake) / intake).toBeLessThan(0.06);
    // Uncalibrated the model reads optimistic: the record, not the model, is what later readings are compared with.
    expect(litres(read.deliveryAtPump)).toBeGreaterThan(delivered);
    const { well } = drawsFor(fieldOf(shape), record);
    expect(well.state).toBe('runs');
  });

  it('keeps the weight that was given where the record asks for an absurd one', () => {
    const record = { ...noReadings, waste: 1000 / 60_000, deliveryAtPump: 5 / 60_000 };
    expect(calibratedField(R50, record).closing).toEqual(R50.closing);
  });
});

describe('a plan’s own findings as evidence', () => {
  it('speak of findings and causes that there are', () => {
    expect(Object.keys(EVIDENCE).filter((code) => !Object.hasOwn(FINDINGS, code))).toEqual([]);
    const known = new Set<string>(CAUSES.map(({ code }) => code));
    expect(
      Object.values(EVIDENCE)
        .flatMap((causes) => Object.keys(causes))
        .filter((code) => !known.has(code)),
    ).toEqual([]);
  });

  it('make a sunk level likelier where the source is short', () => {
    const before = CAUSES.find(({ code }) => code === 'level-sunk')?.prior ?? 0;
    expect(priorsOfPlan(['source-short'])['level-sunk'] ?? 0).toBeGreaterThan(2 * before);
    expect(priorsOfPlan([])).toEqual({});
  });
});

describe('docs/diagnosis.md', () => {
  const text = readFileSync(new URL('../../docs/diagnosis.md', import.meta.url), 'utf8');

  it('has the causes as the program has them (else run: node scripts/diagnosis-doc.mjs --causes)', () => {
    expect(text).toContain(causesTable());
  });

  it('prints shares that were asked for', () => {
    const share = (row: string) => {
      const cells = new RegExp(`\\| ${row} \\| \\d+ \\|(.*)`).exec(text)?.[1] ?? '';
      return [...cells.matchAll(/(\d+) %/g)].map(([, percent]) => Number(percent));
    };
    const [first, three] = share('with the ram’s own record');
    expect(first ?? 0).toBeGreaterThanOrEqual(80);
    expect(three ?? 0).toBeGreaterThanOrEqual(95);
    const [alone, among] = share('without');
    expect(alone ?? 0).toBeGreaterThanOrEqual(65);
    expect(among ?? 0).toBeGreaterThanOrEqual(88);
  });
});
