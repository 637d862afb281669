import { describe, expect, test } from 'vitest';
import { fittingRows } from '../../src/handbook/fitting-loss.ts';
import { herdRows } from '../../src/handbook/livestock-needs.ts';
import { pipeRows } from '../../src/handbook/pipe-rows.ts';
import { rowName } from '../../src/plan/file/fields.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { problemsOf, sampleWith } from './plan-as-json.ts';
import { samplePlan } from './sample-plan.ts';

const settings = 'rillwright';
const tank = ['features', 3] as const;
const trough = ['features', 4] as const;
const supply = ['features', 5] as const;
const drive = ['features', 6] as const;

test('a plan that uses every part is read back exactly as it was written', () => {
  expect(readPlan(writePlan(samplePlan))).toEqual({ ok: true, value: samplePlan });
});

test('a plan that was read is frozen all the way down', () => {
  const read = readPlan(writePlan(samplePlan));
  if (!read.ok) throw new Error('expected a plan');
  expect(Object.isFrozen(read.value)).toBe(true);
  expect(Object.isFrozen(read.value.routes[0]?.vertices[0])).toBe(true);
  expect(Object.isFrozen(read.value.pump?.measured)).toBe(true);
});

test('a file from before troughs had shares and pumps a number says neither, and is written back as it was', () => {
  const file = JSON.parse(writePlan(samplePlan));
  const { herd_share, valve_flow_L_per_min, ...before } = file.features[4].properties;
  const { count, ...pump } = file.rillwright.pump;
  expect([herd_share, valve_flow_L_per_min, count]).toEqual([0.4, 6.5, 2]);
  file.features[4].properties = before;
  file.rillwright.pump = pump;
  const read = readPlan(JSON.stringify(file));
  if (!read.ok) throw new Error('expected a plan');
  expect(read.value.points[4]).toMatchObject({ herdShare: null, valveFlow: null });
  expect(read.value.pump?.count).toBe(1);
  expect(JSON.parse(writePlan(read.value))).toEqual(file);
});

test('features may stand in any order in the file', () => {
  const file = JSON.parse(writePlan(samplePlan));
  const read = readPlan(JSON.stringify({ ...file, features: file.features.toReversed() }));
  expect(read.ok && read.value.points.map(({ id }) => id)).toEqual(samplePlan.points.map(({ id }) => id).toReversed());
});

type Case = readonly [code: string, at: string, path: readonly (string | number)[], value: unknown];

const formCases: readonly Case[] = [
  ['not-a-plan', 'type', ['type'], 'Feature'],
  ['not-a-plan', 'rillwright', [settings], undefined],
  ['unknown-version', 'rillwright.version', [settings, 'version'], '1'],
  ['unknown-version', 'rillwright.version', [settings, 'version'], 0],
  ['newer-version', 'rillwright.version', [settings, 'version'], 2],
  ['unknown-key', 'bbox', ['bbox'], [0, 0, 1, 1]],
  ['unknown-key', 'rillwright.colour', [settings, 'colour'], 'red'],
  ['unknown-key', 'features[3].properties.inlet_height_ft', [...tank, 'properties', 'inlet_height_ft'], 4],
  ['unknown-key', 'features[3].properties.constructor', [...tank, 'properties', 'constructor'], 4],
  ['unknown-key', 'features[3].properties["a b"]', [...tank, 'properties', 'a b'], 4],
  ['missing-key', 'rillwright.water_temperature_C', [settings, 'water_temperature_C'], undefined],
  ['missing-key', 'features', ['features'], undefined],
  ['missing-key', 'features[3].properties.role', [...tank, 'properties'], undefined],
  ['missing-key', 'features[3].properties.role', [...tank], null],
  ['missing-key', 'rillwright.herd[0].kind', [settings, 'herd', 0, 'kind'], undefined],
  ['wrong-type', 'features', ['features'], {}],
  ['wrong-type', 'rillwright.water_temperature_C', [settings, 'water_temperature_C'], '12'],
  ['wrong-type', 'rillwright.herd[0].count', [settings, 'herd', 0, 'count'], 2.5],
  ['unknown-value', 'rillwright.units', [settings, 'units'], 'imperial'],
  ['unknown-value', 'features[3].properties.role', [...tank, 'properties', 'role'], 'pond'],
  ['unknown-value', 'features[3].geometry.type', [...tank, 'geometry', 'type'], 'Polygon'],
  ['unknown-value', 'rillwright.pump.kind', [settings, 'pump', 'kind'], 'windmill'],
  ['malformed-text', 'features[3].id', [...tank, 'id'], 'Tank 1'],
  ['malformed-text', 'features[3].properties.name', [...tank, 'properties', 'name'], 'two\nlines'],
  ['malformed-text', 'rillwright.herd[0].row', [settings, 'herd', 0, 'row'], 'beef cow'],
  ['too-long', 'rillwright.name', [settings, 'name'], 'x'.repeat(201)],
  ['height-in-position', 'features[3].geometry.coordinates', [...tank, 'geometry', 'coordinates'], [-30, 40, 120]],
  [
    'height-in-position',
    'features[5].geometry.coordinates[1]',
    [...supply, 'geometry', 'coordinates', 1],
    [-30, 40, 1],
  ],
  ['wrong-count', 'features[3].geometry.coordinates', [...tank, 'geometry', 'coordinates'], [-30]],
  ['wrong-count', 'features[5].geometry.coordinates', [...supply, 'geometry', 'coordinates'], [[-30.0012, 40.0021]]],
  ['wrong-count', 'rillwright.terrain.files', [settings, 'terrain', 'files'], []],
  ['out-of-range', 'features[3].geometry.coordinates[0]', [...tank, 'geometry', 'coordinates', 0], 180.1],
  ['out-of-range', 'features[3].geometry.coordinates[1]', [...tank, 'geometry', 'coordinates', 1], -90.1],
  ['out-of-range', 'features[3].properties.volume_L', [...tank, 'properties', 'volume_L'], -1],
  ['out-of-range', 'rillwright.water_temperature_C', [settings, 'water_temperature_C'], 61],
  ['out-of-range', 'rillwright.water_temperature_C', [settings, 'water_temperature_C'], -0.1],
  ['out-of-range', 'rillwright.pipes[1].bore_mm', [settings, 'pipes', 1, 'bore_mm'], 0],
  ['out-of-range', 'rillwright.pump.efficiency.high', [settings, 'pump', 'efficiency', 'high'], 1.01],
  ['out-of-range', 'rillwright.pump.efficiency.low', [settings, 'pump', 'efficiency', 'low'], 0],
  ['out-of-range', 'rillwright.confidence', [settings, 'confidence'], 1],
  ['out-of-range', 'rillwright.dry_share', [settings, 'dry_share'], 1.2],
  ['out-of-range', 'rillwright.measurements[0].plus_minus_m', [settings, 'measurements', 0, 'plus_minus_m'], -0.01],
  ['out-of-range', 'rillwright.yield_readings[0].times_s[1]', [settings, 'yield_readings', 0, 'times_s', 1], 0],
  ['out-of-range', 'rillwright.herd[0].count', [settings, 'herd', 0, 'count'], 1e300],
  ['out-of-range', 'features[4].properties.herd_share', [...trough, 'properties', 'herd_share'], 1.1],
  ['out-of-range', 'features[4].properties.valve_flow_L_per_min', [...trough, 'properties', 'valve_flow_L_per_min'], 0],
  ['out-of-range', 'rillwright.pump.count', [settings, 'pump', 'count'], 0],
  ['wrong-type', 'rillwright.pump.count', [settings, 'pump', 'count'], 1.5],
];

const sheet = [settings, 'pump'] as const;
const run = [...sheet, 'measured'] as const;

const crossCases: readonly Case[] = [
  ['repeated-id', 'features[6].id', ['features', 4, 'id'], 'drive-1'],
  ['repeated-id', 'rillwright.pipes[2].id', [settings, 'pipes', 2, 'id'], 'pipe-1'],
  ['unknown-reference', 'features[6].properties.pipe', [...drive, 'properties', 'pipe'], 'pipe-9'],
  ['unknown-reference', 'features[6].properties.to', [...drive, 'properties', 'to'], 'pump-2'],
  ['unknown-reference', 'rillwright.measurements[0].point', [settings, 'measurements', 0, 'point'], 'well-1'],
  ['unknown-row', 'rillwright.pipes[0].row', [settings, 'pipes', 0, 'row'], 'bamboo-dn50'],
  ['unknown-row', 'rillwright.herd[0].row', [settings, 'herd', 0, 'row'], 'unicorn'],
  [
    'unknown-row',
    'features[6].properties.fittings[0].fitting',
    [...drive, 'properties', 'fittings', 0, 'fitting'],
    'knot',
  ],
  [
    'listed-twice',
    'features[6].properties.fittings[1].fitting',
    [...drive, 'properties', 'fittings', 1, 'fitting'],
    'entrance-square',
  ],
  ['wrong-role', 'features[6].properties.from', [...drive, 'properties', 'from'], 'tank-1'],
  ['wrong-role', 'features[5].properties.to', [...supply, 'properties', 'to'], 'trough-1'],
  [
    'end-not-at-point',
    'features[5].geometry.coordinates[0]',
    [...supply, 'geometry', 'coordinates', 0],
    [-30.0012, 40.002_100_002],
  ],
  [
    'end-not-at-point',
    'features[5].geometry.coordinates[2]',
    [...supply, 'geometry', 'coordinates', 2],
    [-30.0009, 40.0019],
  ],
  ['fed-twice', 'features[8].properties.to', ['features', 7, 'properties', 'to'], 'trough-1'],
  ['out-of-order', 'features[1].properties.top_height_m', ['features', 1, 'properties', 'top_height_m'], 0.29],
  ['out-of-order', 'rillwright.pipes[1].roughness_mm', [settings, 'pipes', 1, 'bore_mm'], 0.9],
  [
    'out-of-order',
    'rillwright.yield_readings[0].volume_plus_minus_L',
    [settings, 'yield_readings', 0, 'volume_plus_minus_L'],
    10,
  ],
  ['out-of-order', 'rillwright.pump.intake_least_L_per_min', [...sheet, 'intake_least_L_per_min'], 56],
  ['out-of-order', 'rillwright.pump.intake_set_L_per_min', [...sheet, 'intake_set_L_per_min'], 19.9],
  ['out-of-order', 'rillwright.pump.efficiency', [...sheet, 'efficiency', 'likely'], 0.7],
  ['out-of-order', 'rillwright.pump.measured.delivery_L_per_min', [...run, 'delivery_L_per_min'], 6.2],
];

describe('a plan file in which one thing is wrong', () => {
  test.each([...formCases, ...crossCases])('%s at %s', (code, at, path, value) => {
    const found = problemsOf(sampleWith(path, value));
    expect(found.map((problem) => `${problem.code} at ${problem.path}`)).toContain(`${code} at ${at}`);
    for (const problem of found) {
      expect(problem.found).not.toBe('');
      expect(problem.expected).not.toMatch(/^$|undefined|Invalid input/);
    }
  });

  test.each(['source', 'standpipe', 'pump'])('a second %s is refused', (role) => {
    const file = JSON.parse(writePlan(samplePlan));
    const twin = file.features.find((feature: { properties: { role: string } }) => feature.properties.role === role);
    const text = JSON.stringify({ ...file, features: [...file.features, { ...twin, id: 'twin' }] });
    expect(problemsOf(text)).toEqual([
      {
        code: 'second-of-role',
        path: 'features[9].properties.role',
        found: `another ${role}`,
        expected: `one ${role} at most`,
      },
    ]);
  });

  test('level differences that lead back to where they started are read: a loop says how well they close', () => {
    const link = (from: string, to: string) => ({ kind: 'difference', from, to, rise_m: 1, plus_minus_m: 0.1 });
    const ring = [link('pump-1', 'tank-1'), link('tank-1', 'source-1'), link('source-1', 'pump-1')];
    const read = readPlan(sampleWith([settings, 'measurements'], ring));
    expect(read.ok && read.value.measurements).toHaveLength(3);
  });

  test('the survey and the standing of a reading come back as they were written', () => {
    const own = {
      kind: 'height',
      point: 'pump-1',
      height_m: 12,
      plus_minus_m: 0.1,
      survey: 'Builder',
      standing: 'kept',
    };
    const read = readPlan(sampleWith([settings, 'measurements'], [own]));
    expect(read.ok && read.value.measurements[0]).toMatchObject({ survey: 'Builder', standing: 'kept' });
    expect(read.ok && JSON.parse(writePlan(read.value)).rillwright.measurements).toEqual([own]);
  });

  test('a point levelled from itself is refused', () => {
    const loop = { kind: 'difference', from: 'pump-1', to: 'pump-1', rise_m: 0, plus_minus_m: 0.1 };
    expect(problemsOf(sampleWith([settings, 'measurements'], [loop])).map(({ code }) => code)).toEqual([
      'level-to-itself',
    ]);
  });

  test('an end within a tenth of a millimetre of its point is at its point, and stays where it was drawn', () => {
    const near = [-30.0012, 40.002_100_000_9];
    const read = readPlan(sampleWith([...supply, 'geometry', 'coordinates', 0], near));
    expect(read.ok && read.value.routes[0]?.vertices[0]).toEqual({ lon: near[0], lat: near[1] });
  });
});

describe('a plan file in which numbers lie just on their bounds', () => {
  const edges: readonly (readonly [path: readonly (string | number)[], value: unknown])[] = [
    [['features', 1, 'properties', 'top_height_m'], 0.3],
    [['features', 3, 'geometry'], { type: 'Point', coordinates: [-29.9991, 40.0032] }],
    [[settings, 'water_temperature_C'], 0],
    [[settings, 'water_temperature_C'], 60],
    [[settings, 'confidence'], 0.5],
    [[settings, 'confidence'], 0.999],
    [[...sheet, 'intake_least_L_per_min'], 55],
    [[...sheet, 'intake_set_L_per_min'], 20],
    [[...sheet, 'intake_set_L_per_min'], 55],
    [[...sheet, 'efficiency'], { low: 1, likely: 1, high: 1 }],
    [[...sheet, 'measured'], null],
    [[...run], { drive_flow_L_per_min: 40, delivery_L_per_min: 40, fall_m: 3, delivery_head_m: 3 }],
  ];

  test.each(edges)('%j set to %j is accepted', (path, value) => {
    expect(problemsOf(sampleWith(path, value))).toEqual([]);
  });

  test('a roughness of half the bore is not', () => {
    const codes = problemsOf(sampleWith([settings, 'pipes', 1, 'bore_mm'], 1)).map(({ code }) => code);
    expect(codes).toEqual(['out-of-order']);
  });
});

test('every problem is reported, not only the first', () => {
  const file = JSON.parse(writePlan(samplePlan));
  file.rillwright.water_temperature_C = 99;
  file.rillwright.colour = 'red';
  file.rillwright.herd[0].count = 0;
  file.features[3].properties.volume_L = '2500';
  file.features[5].properties.from = 'tank-1';
  const codes = problemsOf(JSON.stringify(file)).map(({ code }) => code);
  expect(codes).toEqual(['out-of-range', 'out-of-range', 'unknown-key', 'wrong-type']);
});

test('a reference is not blamed while the feature it may point to cannot be read', () => {
  const text = sampleWith(['features', 2, 'properties', 'waste_valve_height_m'], 'low');
  expect(problemsOf(text).map(({ code, path }) => `${code} ${path}`)).toEqual([
    'wrong-type features[2].properties.waste_valve_height_m',
  ]);
});

test('a wrong role is found while another feature cannot be read', () => {
  const file = JSON.parse(writePlan(samplePlan));
  file.features[4].properties.volume_L = null;
  file.features[5].properties.from = 'tank-1';
  const codes = problemsOf(JSON.stringify(file)).map(({ code }) => code);
  expect(codes).toEqual(['wrong-type', 'wrong-role', 'end-not-at-point']);
});

test('fifty problems are listed at most', () => {
  const file = JSON.parse(writePlan(samplePlan));
  file.rillwright.herd = Array.from({ length: 90 }, () => ({ kind: 'row', row: 'unicorn', count: 1 }));
  expect(problemsOf(JSON.stringify(file))).toHaveLength(50);
  file.features = Array.from({ length: 4000 }, () => null);
  expect(problemsOf(JSON.stringify(file))).toHaveLength(50);
});

test('every row of the handbook can be named in a plan', () => {
  const ids = [...pipeRows(), ...fittingRows(), ...herdRows()].map(({ id }) => id);
  expect(ids.length).toBeGreaterThan(100);
  expect(ids.filter((id) => !rowName.safeParse(id).success)).toEqual([]);
});
