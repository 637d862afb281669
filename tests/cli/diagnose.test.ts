import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runCommand } from './run-command.ts';

/** A 52.5 mm ram under 3 m, 24 m high. */
const ram = {
  bore_m: 0.0525,
  length_m: 18,
  wave_speed_m_s: 1390,
  fall_m: 3,
  delivery_head_m: 24.59,
  darcy_factor: 0.028,
  k_entrance: 0.5,
  k_bend: 1,
  k_waste_valve: 6,
  k_check_valve: 4,
  valve_weight_head_m: 0.375,
  valve_stroke_m: 0.008,
  check_lag_s: 0.004,
  air_chamber_m3: 0.008,
  delivery_length_m: 200,
  delivery_bore_m: 0.0266,
};
const record = {
  state: 'runs',
  beats_per_min: 58.4,
  waste_L_per_min: 67.8,
  delivery_L_per_min: 6.6,
  delivery_read_at: 'pump',
  gauge_running_m: 24.5,
  gauge_rest_m: 24,
  gauge_swing_m: 0.56,
  level_m: 3,
};
const codes = [
  'healthy, level-sunk, valve-heavy, valve-light, seat-leak, body-leak, check-leak, check-slow, air-in-water, air-pocket,',
  'chamber-empty, strainer-clogged, outlet-drowned, delivery-throttled, delivery-summit, delivery-leak, no-back-pressure,',
  'drive-pipe-soft, something-else',
]
  .join(' ')
  .split(', ');

interface Answer {
  readonly causes: readonly {
    readonly code: string;
    readonly chance: number;
    readonly remedy: string;
    readonly expected: Readonly<Record<string, number | string | boolean | null>>;
  }[];
  readonly next: readonly {
    readonly test: string;
    readonly bits: number;
    readonly minutes: number;
    readonly shows: Readonly<Record<string, number | boolean | null>>;
  }[];
  readonly note: string;
}

async function run(readings: unknown, file: unknown = ram, flags: readonly string[] = ['--json']) {
  return runCommand(['diagnose', '--ram', 'ram.json', '--readings', 'readings.json', ...flags], {
    'ram.json': JSON.stringify(file),
    'readings.json': typeof readings === 'string' ? readings : JSON.stringify(readings),
  });
}

async function answer(readings: unknown, file: unknown = ram): Promise<Answer> {
  const { code, out, err } = await run(readings, file);
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Answer;
}

async function refusal(readings: unknown, file: unknown = ram): Promise<string> {
  const { code, out, err } = await run(readings, file);
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  return err;
}

describe('the diagnose command', () => {
  it('names every cause once, likeliest first, with its remedy and what it would do', async () => {
    const { causes, next, note } = await answer({ record: null, now: { state: 'stopped-open' } });
    expect(causes.map(({ code }) => code).sort()).toEqual([...codes].sort());
    const chances = causes.map(({ chance }) => chance);
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
    expect(chances.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
    for (const cause of causes) expect(cause.remedy.length).toBeGreaterThan(20);
    expect(next.length).toBeGreaterThan(0);
    for (const { bits, minutes, shows } of next) {
      expect(bits).toBeGreaterThan(0);
      expect(minutes).toBeGreaterThan(0);
      expect(Object.keys(shows).length).toBeGreaterThan(0);
    }
    expect(note).toMatch(/model/);
    expect(note).toMatch(/pressure/);
  });

  it('answers in the units of its keys, at the place of the bucket', async () => {
    const now = {
      state: 'runs',
      beats_per_min: 35.5,
      waste_L_per_min: 112,
      delivery_L_per_min: 7.7,
      delivery_read_at: 'pump',
    };
    const [first] = (await answer({ record, now })).causes;
    expect(first?.code).toBe('valve-heavy');
    expect(first?.expected.delivery_read_at).toBe('pump');
    // An independent simulation of twice the weight: 35.5 a minute, 112 and 7.7 L/min.
    expect(Math.abs(Number(first?.expected.beats_per_min) / 35.5 - 1)).toBeLessThan(0.04);
    expect(Math.abs(Number(first?.expected.waste_L_per_min) / 112 - 1)).toBeLessThan(0.04);
    expect(Math.abs(Number(first?.expected.delivery_L_per_min) / 7.7 - 1)).toBeLessThan(0.1);
  });

  it('reads a bucket without a place as one at the tank', async () => {
    const now = { ...record, delivery_L_per_min: 3.4, delivery_read_at: undefined };
    const { causes } = await answer({ record, now });
    expect(causes[0]?.code).toBe('delivery-leak');
    expect(causes[0]?.expected.delivery_read_at).toBe('tank');
  });

  it('needs neither a line nor a stroke, and takes a closing ratio', async () => {
    const { delivery_length_m, delivery_bore_m, valve_stroke_m, valve_weight_head_m, ...bare } = ram;
    const readings = { record: null, now: { state: 'stopped-open', level_m: 0.8 } };
    expect((await answer(readings, { ...bare, closure_ratio: 0.7 })).causes[0]?.code).toBe('level-sunk');
    expect((await answer(readings, { ...bare, valve_weight_head_m })).causes[0]?.code).toBe('level-sunk');
    expect((await answer(readings, { ...bare, closure_ratio: 0.7, valve_stroke_m })).causes[0]?.code).toBe(
      'level-sunk',
    );
    expect([delivery_length_m, delivery_bore_m]).toEqual([200, 0.0266]);
  });

  it('takes a plan on its ground, and says what a plan lacks', async () => {
    const args = ['diagnose', 'data/demo/plan.geojson', '--dem', 'data/demo/dem.tif', '--readings', 'readings.json'];
    const texts = { 'readings.json': JSON.stringify({ record: null, now: { state: 'stopped-open', level_m: 1 } }) };
    const { code, out, err } = await runCommand([...args, '--json'], texts);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect((JSON.parse(out) as Answer).causes[0]?.code).toBe('level-sunk');
    const plan = JSON.parse(readFileSync('data/demo/plan.geojson', 'utf8'));
    plan.rillwright.pump = null;
    const bare = await runCommand(['diagnose', 'bare.geojson', ...args.slice(2)], {
      ...texts,
      'bare.geojson': JSON.stringify(plan),
    });
    expect(bare.code).toBe(2);
    expect(bare.err).toMatch(/no pump/);
  });

  it('says it in words too', async () => {
    const { code, out } = await run({ record, now: { state: 'stopped-open', level_m: 1 } }, ram, ['--units', 'us']);
    expect(code).toBe(0);
    expect(out).toMatch(/1\. The water at the drive pipe has sunk/);
    expect(out).toMatch(/ft/);
    expect(out).toMatch(/Something else/);
    expect(out).toMatch(/A ram under pressure hurts/);
  });

  it.each([
    ['{}', 'now'],
    ['{"now":{"beats":58}}', 'unknown key'],
    ['{"now":{"beats_per_min":"58"}}', 'number from 0 to 1000'],
    ['{"now":{"waste_L_per_min":-1}}', 'number from 0'],
    ['{"now":{"state":"stands"}}', 'runs, stopped-open, stopped-shut'],
    ['{"now":{"signs":["hums"]}}', 'knocks'],
    ['{"now":{"line_holds":1}}', 'true or false'],
    ['{"then":{},"now":{}}', 'record, now'],
    ['{"now":{"delivery_L_per_min":3,"delivery_at_tank_L_per_min":2}}', 'pump'],
    ['[]', 'record'],
    ['{"now":', 'found'],
  ])('refuses %s in one line', async (readings, words) => {
    expect(await refusal(readings)).toContain(words);
  });

  it('refuses a ram that cannot be one', async () => {
    const readings = { record: null, now: {} };
    expect(await refusal(readings, { ...ram, delivery_head_m: 2 })).toContain('delivery_head_m');
    expect(await refusal(readings, { ...ram, delivery_bore_m: undefined })).toContain('delivery_bore_m');
    expect(await refusal(readings, { ...ram, colour: 3 })).toContain('unknown key');
    const { code, err } = await runCommand(['diagnose', '--ram', 'ram.json'], { 'ram.json': JSON.stringify(ram) });
    expect(code).toBe(2);
    expect(err).toContain('--readings is missing');
  });

  it('leaves the keys of a delivery line to itself', async () => {
    const { code, err } = await runCommand(['cycle', 'ram.json'], { 'ram.json': JSON.stringify(ram) });
    expect(code).toBe(2);
    expect(err).toContain('delivery_length_m');
  });
});
