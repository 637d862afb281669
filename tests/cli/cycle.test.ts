import { describe, expect, it } from 'vitest';
import { runCommand } from './run-command.ts';

/** The worked example of the ram's tests, as a file. */
const example = {
  bore_m: 0.025,
  length_m: 8,
  wave_speed_m_s: 1400,
  fall_m: 2.4,
  delivery_head_m: 15,
  darcy_factor: 0.03,
  k_entrance: 0.5,
  k_bend: 1,
  k_waste_valve: 6,
  k_check_valve: 4,
};
const byRatio = { ...example, closure_ratio: 0.7 };
const byWeight = { ...example, valve_weight_head_m: 0.3, valve_stroke_m: 0.005, check_lag_s: 0.003 };

type Answer = Readonly<Record<string, unknown>>;

async function cycle(file: unknown, ...flags: string[]): Promise<Answer> {
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  const { code, out, err } = await runCommand(['cycle', 'ram.json', ...flags, '--json'], { 'ram.json': text });
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Answer;
}

async function refusal(file: unknown, ...flags: string[]): Promise<string> {
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  const { code, out, err } = await runCommand(['cycle', 'ram.json', ...flags, '--json'], { 'ram.json': text });
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  return err;
}

const keys = [
  'runs',
  'stops_because',
  'beats_per_min',
  'drive_flow_L_per_min',
  'delivery_L_per_min',
  'efficiency_dAubuisson',
  'efficiency_Rankine',
  'highest_head_m',
  'shut_velocity_m_s',
];

describe('the cycle command', () => {
  it('gives the worked example in closed form', async () => {
    const answer = await cycle(byRatio);
    expect(answer).toMatchObject({ model: 'lumped', runs: true, stops_because: null });
    expect(answer.beats_per_min).toBeCloseTo(101.5, 0);
    expect(answer.drive_flow_L_per_min).toBeCloseTo(17.73, 1);
    expect(answer.delivery_L_per_min).toBeCloseTo(2.068, 2);
    expect(answer.efficiency_dAubuisson).toBeCloseTo(0.7289, 3);
    expect(100 * Number(answer.efficiency_Rankine)).toBeCloseTo(69.31, 1);
    expect(answer.shut_velocity_m_s).toBeCloseTo(0.7 * 1.6594, 3);
    for (const key of keys) expect(answer).toHaveProperty(key);
  });

  it('gives the worked example by simulation', async () => {
    const answer = await cycle(byWeight, '--transient');
    expect(answer).toMatchObject({ model: 'transient', runs: true, stops_because: null });
    expect(Math.abs(Number(answer.beats_per_min) / 110.6 - 1)).toBeLessThan(0.03);
    expect(Math.abs(Number(answer.delivery_L_per_min) / 1.921 - 1)).toBeLessThan(0.03);
    expect(Math.abs(Number(answer.highest_head_m) - 15.3)).toBeLessThan(0.2);
    for (const key of keys) expect(answer).toHaveProperty(key);
  });

  it('means the same highest head in both models', async () => {
    const lumped = await cycle(byWeight);
    const transient = await cycle(byWeight, '--transient');
    expect(Math.abs(Number(lumped.highest_head_m) - Number(transient.highest_head_m))).toBeLessThan(0.1);
  });

  it.each([
    { because: 'no-pump-needed', file: { ...byRatio, delivery_head_m: 2 } },
    { because: 'waste-valve-sticks-open', file: { ...byWeight, fall_m: 0.8 } },
    { because: 'waste-valve-stays-shut', file: { ...byRatio, delivery_head_m: 3 } },
    { because: 'delivery-head-too-high', file: { ...byRatio, delivery_head_m: 300 } },
    { because: 'check-valve-too-slow', file: { ...byRatio, check_lag_s: 0.3 } },
  ])('answers a ram that does not run: $because', async ({ because, file }) => {
    const answer = await cycle(file);
    expect(answer).toMatchObject({ runs: false, stops_because: because });
    for (const key of keys.slice(2)) {
      const value = answer[key];
      expect(value === null || Number.isFinite(value)).toBe(true);
    }
  });

  it.each([
    { because: 'no-pump-needed', file: { ...byRatio, delivery_head_m: 2 } },
    { because: 'waste-valve-sticks-open', file: { ...byWeight, fall_m: 0.8 } },
    { because: 'waste-valve-stays-shut', file: { ...byWeight, check_lag_s: 0, delivery_head_m: 3.2 } },
    { because: 'waste-valve-too-slow', file: { ...byRatio, closure_ratio: 0.05, valve_stroke_m: 0.05 } },
  ])('answers a simulated ram that does not run: $because', async ({ because, file }) => {
    expect(await cycle(file, '--transient')).toMatchObject({ runs: false, stops_because: because });
  });

  it('shuts a simulated valve at the ratio asked for, by time or over its stroke', async () => {
    const asked = 0.7 * 1.6591;
    for (const how of [{}, { closing_time_s: 0.01 }, { valve_stroke_m: 0.005 }]) {
      const answer = await cycle({ ...byRatio, check_lag_s: 0.003, ...how }, '--transient');
      expect(answer.runs).toBe(true);
      expect(Math.abs(Number(answer.shut_velocity_m_s) / asked - 1)).toBeLessThan(0.06);
    }
  });

  it('takes a closing time in place of the motion over the stroke', async () => {
    const timed = await cycle({ ...byWeight, closing_time_s: 0.02 });
    expect(timed.shut_velocity_m_s).toBeCloseTo(Math.sqrt((2 * 9.80665 * 0.3) / 6), 9);
  });

  it('says of every efficiency that it is modelled and reads optimistic', async () => {
    expect((await cycle(byRatio)).note).toMatch(/not validated.*optimistic/i);
    const { out } = await runCommand(['cycle', 'ram.json'], { 'ram.json': JSON.stringify(byRatio) });
    expect(out).toMatch(/not validated.*optimistic/i);
    expect(out).toMatch(/^runs\n/);
    expect(out).toMatch(/beats +101\.5 a minute/);
  });

  it('says in words why a ram does not run', async () => {
    const file = JSON.stringify({ ...byRatio, delivery_head_m: 3 });
    const { code, out } = await runCommand(['cycle', 'ram.json'], { 'ram.json': file });
    expect(code).toBe(0);
    expect(out).toMatch(/^does not run: waste valve stays shut\n/);
  });
});

describe('the cycle command refuses in one line', () => {
  it.each([
    ['a missing key', { ...byRatio, bore_m: undefined }, 'bore_m is missing'],
    ['an unknown key', { ...byRatio, bore_mm: 25 }, 'bore_mm: found an unknown key'],
    ['a text for a number', { ...byRatio, bore_m: '25 mm' }, 'bore_m: found "25 mm", expected a number'],
    ['null for a number', { ...byRatio, fall_m: null }, 'fall_m: found null'],
    ['a negative length', { ...byRatio, length_m: -8 }, 'length_m: found -8, expected a number from'],
    ['a ratio past 1', { ...byRatio, closure_ratio: 1.2 }, 'closure_ratio: found 1.2'],
    ['neither ratio nor weight', example, 'found neither, expected one of them'],
    ['both ratio and weight', { ...byWeight, closure_ratio: 0.7 }, 'found both, expected one of them'],
    ['a list', [byRatio], 'found a list, expected an object'],
    ['a key given twice', `{"bore_m": 0.025, "bore_m": 0.03}`, 'bore_m'],
    ['a broken text', '{"bore_m": 0.0', 'ram.json'],
    ['a number no double can hold', '{"bore_m": 1e999}', 'found 1e999'],
  ])('%s', async (_, file, words) => {
    expect(await refusal(file)).toContain(words);
  });

  it('what cannot be simulated', async () => {
    expect(await refusal({ ...byRatio, k_check_valve: 0 }, '--transient')).toContain('k_check_valve: found 0');
    const tiny = { ...byWeight, length_m: 500, wave_speed_m_s: 300, delivery_head_m: 150, air_chamber_m3: 1e-6 };
    expect(await refusal(tiny, '--transient')).toContain('air_chamber_m3: found 0.000001, expected at least');
  });

  it('no file, two files, and one that is not there', async () => {
    expect((await runCommand(['cycle'])).code).toBe(2);
    expect((await runCommand(['cycle', 'a.json', 'b.json'])).code).toBe(2);
    const missing = await runCommand(['cycle', 'not-there.json']);
    expect(missing.code).toBe(2);
    expect(missing.err).toContain('not-there.json');
  });
});
