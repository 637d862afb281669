import { fromArrayBuffer } from 'geotiff';
import { describe, expect, it } from 'vitest';
import { type Ending, runCommand } from './run-command.ts';

const DEM = 'data/demo/dem.tif';
const SOURCE = ['--source=-39.99740599,38.00181771', '--yield', '14L/min'];
const NEAR = ['--margin', '220m'];

interface Estimate {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

interface SiteJson {
  readonly places: readonly {
    readonly pump: { readonly lon: number; readonly lat: number; readonly ground_m: number };
    readonly standpipe: { readonly lon: number; readonly lat: number } | null;
    readonly fall_m: Estimate;
    readonly supply_m: number;
    readonly drive_m: number;
    readonly trench_m: number;
    readonly delivery_L_per_day: Estimate;
    readonly because: string;
  }[];
  readonly systems: readonly {
    readonly name: string;
    readonly delivery_L_per_day: Estimate;
    readonly pipe_m: number;
    readonly cost: number | null;
    readonly runs: string;
    readonly arrives: string;
    readonly plan: unknown;
  }[];
  readonly note: string;
}

const answerOf = ({ out, err, code }: Ending): SiteJson => {
  if (code !== 0) throw new Error(err);
  return JSON.parse(out) as SiteJson;
};

describe('rillwright site', () => {
  it('gives places and systems in the keys that other programs read, none of which fails', async () => {
    const site = answerOf(
      await runCommand([
        'site',
        '--dem',
        DEM,
        ...SOURCE,
        ...NEAR,
        '--need',
        '1200L/day',
        '--tank=-39.99605816,38.00195531',
        '--json',
      ]),
    );
    expect(Object.keys(site)).toEqual(['places', 'systems', 'note']);
    expect(site.places.length).toBeGreaterThan(1);
    expect(site.systems.length).toBeGreaterThan(0);
    for (const place of site.places) {
      expect(Object.keys(place)).toEqual([
        'pump',
        'standpipe',
        'fall_m',
        'supply_m',
        'drive_m',
        'trench_m',
        'delivery_L_per_day',
        'because',
      ]);
      expect(place.fall_m.low).toBeLessThanOrEqual(place.fall_m.likely);
      expect(place.because).not.toBe('');
    }
    for (const system of site.systems) {
      expect(Object.keys(system)).toEqual(['name', 'delivery_L_per_day', 'pipe_m', 'cost', 'runs', 'arrives', 'plan']);
      expect(['holds', 'measure']).toContain(system.runs);
      expect(['holds', 'measure']).toContain(system.arrives);
    }
  });

  it('proposes plans that assess judges the same', async () => {
    const site = answerOf(
      await runCommand(['site', '--dem', DEM, ...SOURCE, ...NEAR, '--need', '900L/day', '--lift', '15m', '--json']),
    );
    const [first] = site.systems;
    if (!first) throw new Error('found no system, expected one');
    const assessed = await runCommand(['assess', 'p', '--dem', DEM, '--json'], { p: JSON.stringify(first.plan) });
    const found = JSON.parse(assessed.out) as {
      verdict: string;
      findings: { code: string; verdict: string }[];
      tanks: { delivery_L_per_day: Estimate }[];
    };
    expect(found.verdict).not.toBe('fails');
    // Rules of good practice, too: systems were proposed whose drive pipe was 1556 bores long.
    expect(found.findings.filter(({ verdict }) => verdict === 'fails')).toEqual([]);
    expect(found.tanks[0]?.delivery_L_per_day.likely).toBeCloseTo(first.delivery_L_per_day.likely, 6);
    expect(found.tanks[0]?.delivery_L_per_day.low).toBeCloseTo(first.delivery_L_per_day.low, 6);
  });

  it('never crosses an area that is to be avoided', async () => {
    // A strip across the whole valley below the source: nothing can be led past it.
    const ring = [
      [-39.9985, 38.0017],
      [-39.9945, 38.0017],
      [-39.9945, 38.00165],
      [-39.9985, 38.00165],
      [-39.9985, 38.0017],
    ];
    const avoid = JSON.stringify({
      type: 'Feature',
      properties: { name: 'road' },
      geometry: { type: 'Polygon', coordinates: [ring] },
    });
    const args = ['site', '--dem', DEM, ...SOURCE, ...NEAR, '--lift', '15m', '--avoid', 'road', '--json'];
    const site = answerOf(await runCommand(args, { road: avoid }));
    for (const place of site.places) expect(place.pump.lat).toBeGreaterThan(38.0017);
    const text = JSON.stringify(site.systems);
    for (const [, lat] of text.matchAll(/\[-39\.\d+,(38\.\d+)\]/g)) expect(Number(lat)).toBeGreaterThan(38.0017);
  });

  it('says why where nothing is found', async () => {
    const site = answerOf(
      await runCommand(['site', '--dem', DEM, ...SOURCE, ...NEAR, '--need', '90000L/day', '--lift', '15m', '--json']),
    );
    expect(site.systems).toEqual([]);
    expect(site.note).toMatch(/The most that arrives is .* of the .* needed/);
  });

  it('refuses a place outside the heights and a flow without a unit', async () => {
    expect((await runCommand(['site', '--dem', DEM, '--source=0,0', '--yield', '14L/min'])).code).toBe(2);
    expect((await runCommand(['site', '--dem', DEM, '--source=-39.9974,38.0018', '--yield', '14'])).code).toBe(2);
  });
});

const spring = (id: string, lon: number, lat: number, more: object = {}): string =>
  JSON.stringify({
    type: 'Feature',
    id,
    geometry: { type: 'Point', coordinates: [lon, lat] },
    properties: { yield: '14L/min', lift: '15m', ...more },
  });

const SPRINGS = [
  spring('one', -39.9974, 38.0018),
  spring('far', 0, 0),
  'not json',
  spring('two', -39.997, 38.0016),
  spring('dry', -39.997, 38.0016, { yield: '0' }),
].join('\n');

describe('rillwright survey', () => {
  const run = async (...args: string[]): Promise<string> => {
    const { out, err, code } = await runCommand(['survey', 's', '--dem', DEM, ...NEAR, ...args], { s: SPRINGS });
    if (code !== 0) throw new Error(err);
    return out;
  };

  it('answers line by line, and its parts put together are the whole, to the byte', async () => {
    const whole = await run();
    const lines = whole.split('\n');
    expect(lines.length).toBe(6);
    const ids = lines.slice(0, 5).map((line) => (JSON.parse(line) as { id: string | null }).id);
    expect(ids).toEqual(['one', 'far', null, 'two', 'dry']);
    expect(lines[1]).toContain('found no height at 0,0');
    const parts = [(await run('--part', '1/2')).split('\n'), (await run('--part', '2/2')).split('\n')];
    const joined = Array.from({ length: 5 }, (_, k) => `${parts[k % 2]?.[Math.floor(k / 2)]}\n`).join('');
    expect(joined).toBe(whole);
  });
});

describe('rillwright reach', () => {
  it('writes a GeoTIFF of six bands in the elevation model’s coordinates, which holds what the plan’s tanks get', async () => {
    const out = 'reach-of-the-demo.tif';
    const { code, err, files } = await runCommand([
      'reach',
      'data/demo/plan.geojson',
      '--dem',
      DEM,
      '--out',
      out,
      '--margin',
      '330m',
    ]);
    expect(err).toBe('');
    expect(code).toBe(0);
    const bytes = files.get(out);
    if (!bytes) throw new Error('found no file, expected one');
    const tiff = await fromArrayBuffer(bytes.buffer as ArrayBuffer);
    const image = await tiff.getImage();
    // As gdalinfo 3.6.2 reads it: Origin = (412100, 4206817), Pixel Size = (1, −1), ID["EPSG",32624], six bands of Float32.
    expect(image.getOrigin().slice(0, 2)).toEqual([412100, 4206817]);
    expect(image.getResolution().slice(0, 2)).toEqual([1, -1]);
    expect(image.getGeoKeys()?.ProjectedCSTypeGeoKey).toBe(32624);
    expect(image.getSamplesPerPixel()).toBe(6);
    expect(image.getGDALNoData()).toBe(-9999);
    const assessed = await runCommand(['assess', 'data/demo/plan.geojson', '--dem', DEM, '--json']);
    const { tanks } = JSON.parse(assessed.out) as {
      tanks: { id: string; delivery_L_per_day: Estimate | null }[];
    };
    const likely = tanks.find((t) => t.id === 'tank-shoulder')?.delivery_L_per_day?.likely ?? 0;
    // The tank at 39.99605816° W, 38.00195531° N stands at (412550, 4206500), in column 450, row 317 (gdaltransform -t_srs EPSG:32624).
    const [band] = await image.readRasters({ window: [450, 317, 451, 318], samples: [0] });
    const shown = typeof band === 'number' ? band : (band?.[0] ?? 0);
    expect(shown / likely).toBeGreaterThan(0.9);
    expect(shown / likely).toBeLessThan(1.1);
  });
});
