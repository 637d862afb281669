import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { runCommand } from './run-command.ts';

const PLAN = 'data/demo/plan.geojson';
const DEM = 'data/demo/dem.tif';

const assess = (...more: string[]) => runCommand(['assess', PLAN, '--dem', DEM, ...more]);

describe('assess', () => {
  test('answers with every key that it promises, JSON alone', async () => {
    const { code, out, err } = await assess('--json');
    expect([code, err]).toEqual([0, '']);
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({ format: 'rillwright/assessment', version: 1 });
    const estimate = { low: expect.any(Number), likely: expect.any(Number), high: expect.any(Number) };
    expect(answer.pump).toMatchObject({
      fall_at_rest_m: expect.any(Number),
      fall_m: estimate,
      drive_flow_L_per_min: estimate,
      supply_limit_L_per_min: expect.any(Number),
    });
    for (const tank of answer.tanks) {
      expect(tank).toMatchObject({
        id: expect.any(String),
        lift_m: estimate,
        governing_lift_m: estimate,
        governed_by: expect.stringMatching(/^(inlet|summit)$/),
        delivery_L_per_min: estimate,
        delivery_L_per_day: estimate,
        friction_m: expect.any(Number),
        demand_L_per_day: expect.any(Number),
        verdict: expect.stringMatching(/^(holds|measure|fails)$/),
      });
      expect(tank.delivery_L_per_day.likely).toBeCloseTo(tank.delivery_L_per_min.likely * 1440, 6);
    }
    for (const point of answer.points)
      expect(Object.keys(point)).toEqual(expect.arrayContaining(['id', 'role', 'lon', 'lat', 'ground_m']));
    for (const line of answer.lines) {
      const keys = ['id', 'role', 'horizontal_m', 'slope_m', 'start_m', 'end_m', 'lowest_m', 'highest_m', 'void_m'];
      expect(Object.keys(line)).toEqual(expect.arrayContaining(keys));
    }
    for (const finding of answer.findings) {
      const keys = ['code', 'about', 'verdict', 'value', 'limit', 'unit', 'sentence', 'source'];
      expect(Object.keys(finding)).toEqual(expect.arrayContaining(keys));
      expect(finding.sentence).not.toMatch(/undefined|NaN|null/);
    }
    for (const item of answer.measure_first)
      expect(item).toMatchObject({ quantity: expect.any(String), about: expect.any(String), why: expect.any(String) });
  });

  test('gives the same answer again', async () => {
    expect((await assess('--json')).out).toBe((await assess('--json')).out);
  });

  test('is read in either unit system', async () => {
    const [metric, us] = [await assess('--units', 'metric'), await assess('--units', 'us')];
    expect(metric.out).toMatch(/working fall\s+[\d.]+\u202fm/);
    expect(us.out).toMatch(/working fall\s+[\d.]+\u202fft/);
    expect(us.out).toContain('gal/day');
    expect(us.out).not.toMatch(/L\/day|L\/min/);
  });

  test.each([
    ['no DEM', ['assess', PLAN], '--dem is missing'],
    ['no plan', ['assess', '--dem', DEM], 'no plan'],
    ['a plan that is not there', ['assess', 'nowhere.geojson', '--dem', DEM], 'nowhere.geojson'],
    ['a DEM that is not there', ['assess', PLAN, '--dem', 'nowhere.tif'], 'nowhere.tif'],
    ['a DEM that is none', ['assess', PLAN, '--dem', 'package.json'], 'package.json'],
    ['a class of accuracy nobody knows', ['assess', PLAN, '--dem', DEM, '--accuracy', 'perfect'], 'perfect'],
  ])('refuses %s in one line', async (_, args, word) => {
    const { code, out, err } = await runCommand(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(word);
    expect(err.trimEnd()).not.toContain('\n');
  });

  test('names what is wrong in a plan by its path', async () => {
    const broken = readFileSync(PLAN, 'utf8').replace('"role": "pump"', '"role": "pomp"');
    const { code, err } = await runCommand(['assess', 'broken.geojson', '--dem', DEM], { 'broken.geojson': broken });
    expect(code).toBe(2);
    expect(err).toContain('features[');
    expect(err).toContain('pomp');
  });
});
