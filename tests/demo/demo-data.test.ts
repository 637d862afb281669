import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { QUANTUM, quantised } from '../../scripts/demo-data/elevation-file.mjs';
import { STREAM } from '../../scripts/demo-data/features.mjs';
import { FINE, valleyGround } from '../../scripts/demo-data/ground.mjs';
import { demoPlan } from '../../scripts/demo-data/plan.mjs';
import { SITE } from '../../scripts/demo-data/site.mjs';
import { writePlan } from '../../src/plan/file/write-plan.ts';

const file = (name: string) => readFileSync(new URL(`../../data/demo/${name}`, import.meta.url));

interface Decoded {
  readonly about: {
    readonly columns: number;
    readonly rows: number;
    readonly bands: number;
    readonly keys: Readonly<Record<string, number>>;
    readonly box: readonly number[];
    readonly nodata: number | null;
  };
  readonly samples: Uint8Array;
}

function decoded(name: string): Decoded {
  const path = (place: string) => fileURLToPath(new URL(place, import.meta.url));
  const out = execFileSync(process.execPath, [path('decode-tiff.mjs'), path(`../../data/demo/${name}`)], {
    maxBuffer: 2 ** 27,
  });
  const end = out.indexOf(10);
  return { about: JSON.parse(out.subarray(0, end).toString()), samples: Uint8Array.from(out.subarray(end + 1)) };
}

const BOX = [SITE.west, SITE.south, SITE.west + SITE.width, SITE.south + SITE.height];

describe('the demo valley', () => {
  let dem: Decoded;
  let stored: Float32Array;

  beforeAll(() => {
    dem = decoded('dem.tif');
    stored = new Float32Array(dem.samples.buffer);
  });

  const at = (x: number, y: number) => stored[Math.floor(SITE.height - y) * FINE.columns + Math.floor(x)] ?? Number.NaN;

  it('comes out of its script height for height', { timeout: 120_000 }, () => {
    const made = quantised(valleyGround());
    expect(stored.length).toBe(made.length);
    let worst = 0;
    let apart = 0;
    for (let cell = 0; cell < made.length; cell++) {
      const difference = Math.abs((made[cell] ?? 0) - (stored[cell] ?? Number.NaN));
      worst = Math.max(worst, difference);
      if (difference !== 0) apart++;
    }
    // Another version of Node may round a sine differently: then a height in ten thousand moves by one step, not more.
    expect(worst).toBeLessThanOrEqual(QUANTUM);
    expect(apart).toBeLessThan(made.length / 10_000);
  });

  it('has a stream whose bed never rises', () => {
    const bed = Array.from(STREAM.curve.x, (x, k) => [x, STREAM.curve.y[k] ?? 0] as const)
      .filter(([x]) => x > 1 && x < SITE.width - 1)
      .map(([x, y]) => at(x, y));
    bed.slice(1).forEach((height, k) => {
      // Neighbouring cells of the bed are a step of the stored heights apart, and one may lie nearer the bank.
      expect(height).toBeLessThanOrEqual((bed[k] ?? 0) + 0.02);
    });
    expect((bed[0] ?? 0) - (bed.at(-1) ?? 0)).toBeGreaterThan(20);
  });

  it('has a spring above the bench, the bench above the stream, and a knoll between the bench and the hollow behind', () => {
    const [spring, bench, stream] = [at(431.5, 486), at(517, 406), at(517, 366)];
    expect(spring - bench).toBeGreaterThan(4);
    expect(bench - stream).toBeGreaterThan(2);
    const straight = Array.from({ length: 100 }, (_, k) => at(517 + 2.73 * k, 406 + 1.6 * k));
    expect(Math.max(...straight) - at(790, 566)).toBeGreaterThan(15);
  });

  it('lies on UTM zone 24 N in the open Atlantic, metres above mean sea level', () => {
    expect(dem.about.keys).toMatchObject({
      ProjectedCSTypeGeoKey: 32624,
      GTRasterTypeGeoKey: 1,
      VerticalCSTypeGeoKey: 5714,
      VerticalUnitsGeoKey: 9001,
    });
    expect(dem.about.box).toEqual(BOX);
    expect(dem.about.nodata).toBe(-9999);
  });

  it('has a picture of the same ground, darker in the stream than in the hay field', () => {
    const { about, samples } = decoded('picture.tif');
    expect([about.bands, about.box]).toEqual([3, BOX]);
    const brightness = (x: number, y: number) => {
      const cell = Math.floor((SITE.height - y) * 2) * about.columns + Math.floor(x * 2);
      return samples.subarray(cell * 3, cell * 3 + 3).reduce((sum, value) => sum + value, 0) / 3;
    };
    expect(brightness(440, 368)).toBeLessThan(80);
    expect(brightness(560, 230)).toBeGreaterThan(95);
  });

  it('has a plan that is the written form of the one in the script', () => {
    expect(file('plan.geojson').toString()).toBe(writePlan(demoPlan() as Parameters<typeof writePlan>[0]));
  });

  it('fits in five megabytes', () => {
    const sizes = ['dem.tif', 'picture.tif', 'plan.geojson'].map((name) => file(name).length);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(5e6);
  });
});
