import { describe, expect, it } from 'vitest';
import type { Evaluation } from '../../../src/evaluation/result/evaluation.ts';
import type { Estimate } from '../../../src/evaluation/statistics/estimate.ts';
import { readImport } from '../../../src/plan/exchange/read-import.ts';
import { csvRows } from '../../../src/plan/exchange/read-points-csv.ts';
import { exportedFile, type TableFormat } from '../../../src/report/exchange/exported-file.ts';
import { samplePlan } from '../../plan/sample-plan.ts';
import { noAnswer } from '../no-answer.ts';

const around = (likely: number, by: number): Estimate => ({ low: likely - by, likely, high: likely + by });

/** Round results, so that the units of the tables can be checked by hand. */
const evaluation: Evaluation = {
  answer: noAnswer,
  points: [
    { id: 'source-1', role: 'source', ground: 100, groundFrom: 'dem', level: 99.8, smoothing: 0 },
    { id: 'pump-1', role: 'pump', ground: 96.5, groundFrom: 'measured', level: 96.1, smoothing: 0 },
    { id: 'tank-1', role: 'tank', ground: null, groundFrom: 'dem', level: null, smoothing: 0 },
  ],
  lines: [
    {
      id: 'delivery-1',
      role: 'delivery',
      horizontal: 304.8,
      slope: 310.896,
      start: 96.5,
      end: 120,
      lowest: 96.5,
      highest: 121.92,
      void: 0,
      turnings: [],
      flow: 0.003_785_411_784 / 60,
      velocity: 0.2,
      friction: 1.524,
      running: null,
      still: 120,
      pressure: { still: 200_000, running: 210_000, blocked: 900_000 },
      rating: null,
    },
  ],
  source: { flow: null, available: null, drawn: null },
  standpipe: null,
  pump: null,
  tanks: [
    {
      id: 'tank-1',
      lift: around(24.384, 3.048),
      liftBias: 0,
      line: {
        route: 'delivery-1',
        governingLift: around(25, 1),
        governedBy: 'outlet',
        liftOverFall: around(7, 1),
        delivery: null,
        deliveryPerDay: around(1, 0.2),
        friction: null,
        ifRunningPerDay: null,
        runs: 1,
      },
      demandPerDay: 0.8,
      storageDays: 3.125,
      verdict: 'measure',
    },
  ],
  troughs: [],
  years: null,
  findings: [],
  measureFirst: [],
  verdict: 'measure',
};

function table(format: TableFormat, units: 'metric' | 'us', result: Evaluation | null = evaluation) {
  const { text } = exportedFile(format, { plan: samplePlan, evaluation: result, units });
  const [head, ...rows] = csvRows(text, ',').map(({ fields }) => fields);
  return rows.map((row) => Object.fromEntries((head ?? []).map((name, k) => [name, row[k]])));
}

describe('tables to take along', () => {
  it('points have their place, ground and level, nothing where nothing is known', () => {
    const rows = table('points-csv', 'metric');
    expect(rows).toHaveLength(samplePlan.points.length);
    expect(rows[0]).toMatchObject({ 'latitude, deg': '40.0021', 'ground, m': '100', 'ground from': 'dem' });
    expect(rows[1]).toMatchObject({ name: 'Standpipe', 'ground, m': '', 'ground from': '' });
    expect(rows[2]).toMatchObject({ 'ground from': 'measured', 'water or valve level, m': '96.1', note: 'In a pit.' });
    expect(rows[3]).toMatchObject({ 'ground, m': '', 'ground from': '', note: 'Line one.\nLine two.' });
  });

  it('lines have their lengths, ground and water in the units of the heading', () => {
    // 304.8 m are 1000 ft and 3.785411784 L are 1 US gallon by definition; 210 kPa / 6.894757 = 30.46 psi.
    expect(table('lines-csv', 'us')[2]).toMatchObject({
      from: 'Ram',
      to: 'Hill tank',
      'length on the map, ft': '1000',
      'length along the ground, ft': '1020',
      'highest ground, ft': '400',
      'flow, gal/min': '1',
      'lost to friction, ft': '5',
      'highest pressure with no flow or running, psi': '30',
      'pipe rating at the water’s temperature, psi': '',
    });
    expect(table('lines-csv', 'metric')[2]).toMatchObject({
      'flow, L/min': '3.79',
      'highest pressure with no flow or running, bar': '2.1',
    });
  });

  it('a line has its length on the map before there is ground', () => {
    // echo "40.0016 -30.0008 40.0018 -30.0009" | GeodSolve -i, GeographicLib 2.1.2: 23.792 m between standpipe and ram.
    expect(table('lines-csv', 'metric', null)[1]).toMatchObject({
      'length on the map, m': '23.8',
      'length along the ground, m': '',
    });
  });

  it('tanks have lift and delivery with their spread', () => {
    expect(table('tanks-csv', 'us')).toMatchObject([
      {
        tank: 'Hill tank',
        choice: 'chosen',
        'works?': 'check on site',
        'lift, low, ft': '70',
        'lift, likely, ft': '80',
        'lift, high, ft': '90',
        // 1 m³ / 3.785411784 L = 264.17 gal.
        'arrives a day, likely, gal': '264',
        'full tank lasts, days': '3.1',
        'delivery line along the ground, ft': '1020',
      },
    ]);
    expect(table('tanks-csv', 'metric')[0]).toMatchObject({ 'arrives a day, low, L': '800', 'needed a day, L': '800' });
  });

  it('a name that a spreadsheet would run is text', () => {
    const [first, ...rest] = samplePlan.points;
    if (first === undefined) throw new Error('expected a point');
    const plan = { ...samplePlan, points: [{ ...first, name: '=HYPERLINK("http://example.invalid")' }, ...rest] };
    const { text } = exportedFile('points-csv', { plan, evaluation: null, units: 'metric' });
    expect(text).toContain(`"'=HYPERLINK(""http://example.invalid"")"`);
  });

  it('the table of points can be imported again', () => {
    const { text } = exportedFile('points-csv', { plan: samplePlan, evaluation, units: 'us' });
    const read = readImport({ name: 'points.csv', bytes: new TextEncoder().encode(text) });
    expect(read.ok && read.value.items.map(({ name, suggested, positions }) => [name, suggested, positions])).toEqual(
      samplePlan.points.map(({ name, role, position }) => [name, role, [position]]),
    );
  });

  it('files are named after the plan, whatever it is called', () => {
    const named = (name: string, format: TableFormat) =>
      exportedFile(format, { plan: { ...samplePlan, name }, evaluation: null, units: 'metric' }).name;
    expect(named('Invented valley', 'gpx')).toBe('Invented-valley.gpx');
    expect(named('../../etc/passwd', 'points-csv')).toBe('etc-passwd-points.csv');
    expect(named('\u202e', 'tanks-csv')).toBe('plan-tanks.csv');
  });
});
