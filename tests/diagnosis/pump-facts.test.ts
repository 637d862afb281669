import { describe, expect, it } from 'vitest';
import { fieldOfPlan, latestRecord, readingsOfRecord } from '../../src/diagnosis/model/field-of-plan.ts';
import { noReadings } from '../../src/diagnosis/model/readings.ts';
import { planRemedy } from '../../src/diagnosis/plan-remedy.ts';
import { pumpFacts } from '../../src/diagnosis/pump-facts.ts';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import { beatCourse } from '../../src/ram/transient/beat-course.ts';
import { transientRun } from '../../src/ram/transient/transient-run.ts';
import { beatFigure, namedMoments } from '../../src/report/figure/beat-figure.ts';
import { svgText } from '../../src/report/figure/figure-svg.ts';
import { readingBars } from '../../src/report/figure/reading-bars.ts';
import { recordFigure } from '../../src/report/figure/record-figure.ts';
import { diagnosePlan } from '../../src/worker/diagnosis-service.ts';
import { exampleHeads, exampleRam } from '../ram/example-ram.ts';
import { madePlan } from './made-plan.ts';

const { plan, ground } = madePlan();

describe('a plan’s pump as a ram in the field', () => {
  it('stands where the plan has it, with the plan’s own parts', () => {
    const found = fieldOfPlan(plan, ground);
    if (!found.ok) throw new Error(`expected a ram, found ${found.because}`);
    expect(found.parts).toBe('own');
    // Made ground: the spring's water at 103 m, waste valve at 100 m, tank's inlet at 124 m.
    expect(found.field.lift).toBeCloseTo(24, 1);
    expect(found.field.fall).toBeGreaterThan(2.5);
    expect(found.field.fall).toBeLessThanOrEqual(3.01);
    expect(found.field.closing.weightHead).toBeCloseTo(0.375, 9);
  });

  it('says what a plan lacks', () => {
    const bare = emptyPlan({ name: '', units: 'metric' });
    const nothing = { points: new Map(), lines: new Map(), accuracy: ground.accuracy };
    expect(fieldOfPlan(bare, nothing)).toEqual({ ok: false, because: 'no-pump' });
    expect(fieldOfPlan({ ...plan, pump: null }, ground)).toEqual({ ok: false, because: 'no-pump' });
    const without = { ...plan, routes: plan.routes.filter(({ role }) => role !== 'delivery') };
    expect(fieldOfPlan(without, ground)).toEqual({ ok: false, because: 'no-delivery' });
  });

  it('is diagnosed by the worker with its latest record', async () => {
    const now = { ...noReadings, state: 'stopped-open' as const, level: 0.9 };
    const found = await diagnosePlan({ plan, ground, now, priors: {} });
    if (!found.ok) throw new Error('expected a diagnosis');
    expect(found.diagnosis.causes[0]?.code).toBe('level-sunk');
    expect(found.record).toBeNull();
    const records = [
      {
        date: '2026-05-14',
        by: '',
        level: 3,
        beatsPerMinute: 58,
        waste: 0.00113,
        delivery: 0.00011,
        deliveryReadAt: 'pump' as const,
        gaugeRest: 24,
        gaugeRunning: 24.5,
        gaugeSwing: 0.6,
        valveWeight: null,
        valveStroke: null,
        note: '',
      },
    ];
    const kept = { ...plan, records };
    expect(latestRecord(kept)).toEqual(readingsOfRecord(records[0] as (typeof records)[number]));
    const beside = await diagnosePlan({ plan: kept, ground, now, priors: {} });
    expect(beside.ok && beside.diagnosis.notes.map(({ code }) => code)).not.toContain('no-record');
  });
});

describe('what the sheets are made from', () => {
  const facts = pumpFacts(plan, ground);

  it('fills the lines in the order of the water, each in its volume over its flow', () => {
    expect(facts.fill.map(({ role }) => role)).toEqual(['drive', 'delivery']);
    const [drive, delivery] = facts.fill;
    // π/4 · 0.0525² · 18 m along the ground, 39 L; π/4 · 0.0266² · some 200 m, 111 L.
    expect(Math.abs((drive?.volume ?? 0) / 0.0395 - 1)).toBeLessThan(0.03);
    expect(Math.abs((delivery?.volume ?? 0) / 0.1129 - 1)).toBeLessThan(0.05);
    expect(delivery?.time ?? 0).toBeGreaterThan(300);
  });

  it('finds the sag that keeps water, and how much', () => {
    // The made delivery line dips from 108 m to 102 m and climbs again: all below 108 m stays, about 20 m on either side.
    expect(facts.drains).toHaveLength(1);
    const [sag] = facts.drains;
    expect(Math.abs((sag?.at ?? 0) - 60)).toBeLessThan(4);
    const wet = 2 * Math.hypot(20, 6);
    expect(Math.abs((sag?.holds ?? 0) / ((Math.PI / 4) * 0.0266 ** 2 * wet) - 1)).toBeLessThan(0.3);
  });

  it('tunes away from both ends, and takes less when the source gives less', () => {
    expect(facts.tuning).toHaveLength(12);
    for (const row of facts.tuning) {
      expect(row.intake).toBeGreaterThan(row.stopsBelow);
      expect(row.intake).toBeLessThan(row.stopsAbove);
      if (row.enough) expect(row.intake).toBeLessThanOrEqual(row.source);
      expect(row.delivery).toBeGreaterThan(0);
      expect(row.delivery).toBeLessThan(row.intake / 4);
    }
    expect(facts.tuning[7]?.intake ?? 0).toBeLessThan(facts.tuning[0]?.intake ?? 0);
    expect(facts.tuning[7]?.weight ?? 0).toBeLessThan(facts.tuning[0]?.weight ?? 0);
  });

  it('asks for twice the fall or 7 m of back pressure', () => {
    expect(facts.start?.leastBackPressure).toBe(7);
    expect(facts.start?.gaugeRunning ?? 0).toBeGreaterThan(facts.start?.gaugeRest ?? 0);
  });
});

describe('a remedy that is a change of the plan', () => {
  it('vents the line, eases the pump, lays steel, each as one step', () => {
    const vent = planRemedy(plan, 'delivery-summit')?.make(plan);
    expect(vent?.ok && vent.value.plan.routes.find(({ role }) => role === 'delivery')?.summits).toBe('vented');
    const less = planRemedy(plan, 'level-sunk')?.make(plan);
    expect(less?.ok && less.value.plan.pump?.kind === 'ram' && less.value.plan.pump.valveWeightHead).toBeCloseTo(
      0.3,
      9,
    );
    const plastic = {
      ...plan,
      pipes: plan.pipes.map((pipe) =>
        pipe.kind === 'own' && pipe.material === 'steel' ? { ...pipe, material: 'pe' as const } : pipe,
      ),
    };
    const steel = planRemedy(plastic, 'drive-pipe-soft')?.make(plastic);
    if (!steel?.ok) throw new Error('expected a step');
    const drive = steel.value.plan.routes.find(({ role }) => role === 'drive');
    const pipe = steel.value.plan.pipes.find(({ id }) => id === drive?.pipe);
    expect(pipe?.kind === 'row' && pipe.row).toMatch(/steel/);
  });

  it('is none where the work is at the pump, or done already', () => {
    expect(planRemedy(plan, 'seat-leak')).toBeNull();
    expect(planRemedy(plan, 'drive-pipe-soft')).toBeNull();
    const vented = planRemedy(plan, 'delivery-summit')?.make(plan);
    if (!vented?.ok) throw new Error('expected a step');
    expect(planRemedy(vented.value.plan, 'delivery-summit')).toBeNull();
  });
});

describe('the simulated beat', () => {
  const setup = {
    ...exampleHeads,
    ram: { ...exampleRam, checkLag: 0.003 },
    closing: { kind: 'stroke', weightHead: 0.3, stroke: 0.005 } as const,
    airChamber: null,
    standpipe: null,
    reaches: 40,
    vapourHead: -10.2,
  };

  function courseOf(fall: number) {
    const shares: number[] = [];
    const steps = beatCourse({ ...setup, fall });
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) return { course: step.value, shares };
      shares.push(step.value);
    }
  }

  it('shows three beats with their moments in order, as long as the run’s', () => {
    const { course, shares } = courseOf(2.4);
    expect(course.beats).toBe(true);
    // An independent simulation beats 110.6 times a minute.
    expect(Math.abs((3 * 60) / (course.at.at(-1) ?? 1) / 110.6 - 1)).toBeLessThan(0.03);
    expect(Math.abs((3 * 60) / (course.at.at(-1) ?? 1) / transientRun(setup).beatsPerMinute - 1)).toBeLessThan(0.03);
    const kinds = namedMoments(course).map(({ words }) => words);
    expect(kinds).toHaveLength(4);
    expect(kinds[0]).toBe('waste valve opens');
    expect(kinds.indexOf('check valve opens')).toBeLessThan(kinds.indexOf('check valve shuts'));
    expect(Math.max(...course.head)).toBeGreaterThan(15);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const svg = svgText(beatFigure(course, { units: 'us', width: 420, height: 300, title: 'A beat' }));
    expect(svg).toContain('ft/s');
    expect(svg).not.toContain('NaN');
  });

  it('says of a ram that stands that it does not beat', () => {
    expect(courseOf(0.5).course.beats).toBe(false);
  });
});

describe('figures of readings and records', () => {
  it('draws what was read and expected to one scale', () => {
    const bars = [{ label: 'Waste', read: 2, expected: 1, readWords: '2', expectedWords: '1' }];
    const svg = svgText(readingBars(bars, { width: 320, title: 'Waste' }));
    const widths = [...svg.matchAll(/width="([\d.]+)" height="7"/g)].map(([, width]) => Number(width));
    expect((widths[0] ?? 0) / (widths[1] ?? 1)).toBeCloseTo(2, 2);
  });

  it('needs two records on two days', () => {
    const view = { width: 480, title: 'Records', write: (_: string, value: number) => String(value) };
    const [one] = plan.records ?? [];
    const record = one ?? { ...emptyRecord, beatsPerMinute: 58 };
    expect(recordFigure([record], view)).toBeNull();
    const figure = recordFigure([record, { ...record, date: '2026-09-30', beatsPerMinute: 50 }], view);
    expect(figure === null ? '' : svgText(figure)).toContain('beats a minute: last 50');
  });
});

const emptyRecord = {
  date: '2026-05-14',
  by: '',
  level: null,
  beatsPerMinute: null,
  waste: null,
  delivery: null,
  deliveryReadAt: 'tank' as const,
  gaugeRest: null,
  gaugeRunning: null,
  gaugeSwing: null,
  valveWeight: null,
  valveStroke: null,
  note: '',
};
