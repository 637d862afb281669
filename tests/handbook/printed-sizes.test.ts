import { describe, expect, it } from 'vitest';
import { pipeRow } from '../../src/handbook/pipe-rows.ts';

/** Rows read in other printings of the standards than the ones the handbook was written from. */

/** ISO 4427-2:2007, table 2 (grade V): outside diameter, SDR, least and greatest wall, mm. */
const polyethylene: readonly (readonly [number, string, number, number])[] = [
  [20, '11', 2, 2.3],
  [20, '9', 2.3, 2.7],
  [25, '11', 2.3, 2.7],
  [25, '13.6', 2, 2.3],
  [32, '7.4', 4.4, 5],
  [32, '11', 3, 3.4],
  [32, '17', 2, 2.3],
  [40, '11', 3.7, 4.2],
  [50, '17', 3, 3.4],
  [63, '11', 5.8, 6.5],
  [63, '17', 3.8, 4.3],
  [75, '9', 8.4, 9.4],
  [90, '11', 8.2, 9.2],
];

/** ASTM B88: size, type, outside diameter, wall, in. */
const copper: readonly (readonly [string, string, number, number])[] = [
  ['0.5', 'k', 0.625, 0.049],
  ['0.75', 'k', 0.875, 0.065],
  ['2', 'k', 2.125, 0.083],
  ['0.5', 'l', 0.625, 0.04],
  ['1', 'l', 1.125, 0.05],
  ['1.25', 'l', 1.375, 0.055],
  ['4', 'l', 4.125, 0.114],
];

/** EN 10255: DN, medium and heavy walls, largest outside diameter, mm. */
const steel: readonly (readonly [number, number, number, number])[] = [
  [15, 2.6, 3.2, 21.7],
  [20, 2.6, 3.2, 27.2],
  [25, 3.2, 4, 34.2],
  [32, 3.2, 4, 42.9],
  [40, 3.2, 4, 48.8],
  [50, 3.6, 4.5, 60.8],
];

/** ASTM D3035, PE4710: size, DR, least wall, in, rating, psi. */
const ironPipeSize: readonly (readonly [string, string, number, number])[] = [
  ['0.75', '9', 0.117, 250],
  ['1', '11', 0.12, 200],
  ['1.25', '7', 0.237, 333],
  ['1.5', '13.5', 0.141, 160],
  ['2', '11', 0.216, 200],
  ['3', '9', 0.389, 250],
];

const near = (value: number | undefined, printed: number): void => expect(value).toBeCloseTo(printed, 6);

describe('sizes as they are printed elsewhere', () => {
  it.each(polyethylene)('PE100 of %d mm, SDR %s', (size, sdr, least, most) => {
    const row = pipeRow(`pe100-sdr${sdr}-${size}`);
    near(row?.wallLeast, least / 1000);
    near(row?.boreHigh, (size - 2 * least) / 1000);
    near(row?.boreLow, (size - 2 * most) / 1000);
  });

  it.each(copper)('copper of %s in, type %s', (size, type, outside, wall) => {
    const row = pipeRow(`copper-${type}-${size}in`);
    near(row?.outsideDiameter, outside * 0.0254);
    near(row?.wall, wall * 0.0254);
  });

  it.each(steel)('steel of DN %d', (dn, medium, heavy, largest) => {
    near(pipeRow(`steel-medium-dn${dn}`)?.wall, medium / 1000);
    near(pipeRow(`steel-heavy-dn${dn}`)?.wall, heavy / 1000);
    // Printings differ by 0.1 mm in the largest diameter.
    const row = pipeRow(`steel-medium-dn${dn}`);
    expect(Math.abs((row?.boreHigh ?? 0) - (largest - 2 * medium) / 1000)).toBeLessThanOrEqual(1.1e-4);
  });

  it.each(ironPipeSize)('PE4710 of %s in, DR %s', (size, ratio, wall, rating) => {
    const row = pipeRow(`pe4710-dr${ratio}-${size}in`);
    near(row?.wallLeast, wall * 0.0254);
    expect((row?.rating ?? 0) / 6894.757).toBeCloseTo(rating, 3);
  });
});
