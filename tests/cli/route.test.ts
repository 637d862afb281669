import { describe, expect, it } from 'vitest';
import { runCommand } from './run-command.ts';

const DEM = ['--dem', 'data/demo/dem.tif'];
const PUMP = '-39.99642252,38.00110504';
const TANK = '-39.99333296,38.00257319';
const SPRING = '-39.99740599,38.00181771';
const MEADOW = '-39.99761878,38.00113095';

interface Answer {
  readonly rillwright: { readonly kind: string };
  readonly features: readonly {
    readonly geometry: { readonly type: string; readonly coordinates: readonly (readonly [number, number])[] };
    readonly properties: Readonly<Record<string, number>>;
  }[];
}

async function route(...args: readonly string[]): Promise<Answer> {
  const { code, out, err } = await runCommand(['route', ...args, ...DEM, '--json']);
  expect([code, err]).toEqual([0, '']);
  return JSON.parse(out) as Answer;
}

describe('the route command', () => {
  it('proposes a delivery line round the knoll and the one over it, each as the profile command finds it', async () => {
    const { rillwright, features } = await route(
      PUMP,
      TANK,
      '--role',
      'delivery',
      '--to-height=1.6m',
      '--from-height=0.3m',
    );
    expect(rillwright.kind).toBe('route');
    expect(features).toHaveLength(2);
    const [round, over] = features;
    expect(round?.properties.governing_lift_m).toBeLessThan((over?.properties.governing_lift_m ?? 0) - 5);
    expect(round?.properties.length_m).toBeGreaterThan(over?.properties.length_m ?? Number.NaN);
    for (const { geometry, properties } of features) {
      expect(geometry.coordinates[0]).toEqual([-39.99642252, 38.00110504]);
      expect(geometry.coordinates.at(-1)).toEqual([-39.99333296, 38.00257319]);
      const text = JSON.stringify(geometry);
      const profile = await runCommand(['profile', 'line.geojson', ...DEM, '--json'], { 'line.geojson': text });
      const found = JSON.parse(profile.out) as {
        horizontal_m: number;
        slope_m: number;
        samples: { ground_m: number }[];
      };
      expect(properties.horizontal_m).toBeCloseTo(found.horizontal_m, 6);
      expect((properties.length_m ?? 0) / found.slope_m).toBeCloseTo(1, 3);
      const highest = Math.max(...found.samples.map((s) => s.ground_m));
      expect(Math.abs((properties.highest_ground_m ?? 0) - highest)).toBeLessThan(0.05);
    }
  });

  it('proposes a line that falls from the spring to the meadow within the trench', async () => {
    const { features } = await route(SPRING, MEADOW, '--role', 'gravity');
    expect(features).toHaveLength(1);
    expect(features[0]?.properties.deepest_below_ground_m).toBeLessThanOrEqual(0.6);
  });

  it('marks where the ground stands too high for a line that falls', async () => {
    const { rillwright, features } = await route(MEADOW, SPRING, '--role', 'gravity');
    expect(rillwright.kind).toBe('blocked');
    expect(features.map((f) => f.geometry.type)).toEqual(['Point']);
    expect(features[0]?.properties.excess_m).toBeGreaterThan(1);
  });

  it('answers in words with both kinds of unit', async () => {
    const { out } = await runCommand(['route', PUMP, TANK, '--role', 'delivery', ...DEM]);
    expect(out).toMatch(/^proposed: .*\sm \(.*\sft\) along the ground/);
    expect(out).toMatch(/\nor: /);
    const blocked = await runCommand(['route', MEADOW, SPRING, '--role', 'supply', ...DEM]);
    expect(blocked.out).toMatch(/^no way falls all along: at -39\.9.* deeper than allowed\n/);
  });

  it.each([
    [['route', PUMP, '--role', 'delivery', ...DEM], 'found 1 places'],
    [['route', PUMP, '1,2,3', '--role', 'delivery', ...DEM], 'found 1,2,3'],
    [['route', PUMP, '200,2', '--role', 'delivery', ...DEM], 'found 200,2'],
    [['route', PUMP, TANK, ...DEM], '--role is missing'],
    [['route', PUMP, TANK, '--role', 'canal', ...DEM], 'found canal'],
    [['route', PUMP, TANK, '--role', 'gravity', '--deepest=-1m', ...DEM], 'found -1m'],
    [['route', PUMP, TANK, '--role', 'gravity'], '--dem is missing'],
    [['route', PUMP, '-30,38', '--role', 'gravity', ...DEM], 'found no height at -30,38'],
  ])('refuses %j in one line', async (args, words) => {
    const { code, out, err } = await runCommand(args);
    expect([code, out]).toEqual([2, '']);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(err).toContain(words);
  });
});
