import { describe, expect, it } from 'vitest';
import { fallingPipe } from '../../src/siting/fields/falling-pipe.ts';
import { openGround } from '../../src/siting/fields/open-ground.ts';
import { driveCourse, pumpPlaces, USUAL_PLACE_SETTINGS } from '../../src/siting/places/pump-places.ts';
import { bestFront, namesOf } from '../../src/siting/systems/front.ts';
import { carveQuantile, valleyLine } from '../../src/siting/valley/valley-line.ts';
import { accuracyOfClass } from '../../src/terrain/accuracy/height-accuracy.ts';
import { fieldOf } from './fields.ts';

const lidar = accuracyOfClass('lidar-1m-open', { cell: 1, quantum: 0 });
if (!lidar) throw new Error('found no class lidar-1m-open, expected one');

/** A straight stream along row 20 that falls by `slope`, in a valley whose sides rise 20 in 100. */
const valley = (slope: number, bump: (c: number, r: number) => number = () => 0) =>
  fieldOf(260, 41, (c, r) => 100 - slope * c + 0.2 * Math.max(0, Math.abs(r - 20) - 1) + bump(c, r));

function placesIn(slope: number, bump?: (c: number, r: number) => number) {
  const field = valley(slope, bump);
  const ground = openGround(field);
  const cell = 20 * 260 + 4;
  const water = (ground.heights[cell] as number) + 0.3;
  const line = valleyLine(ground, field.known, cell, 1000);
  const pipe = fallingPipe(ground, { cell, level: water }, { leastFall: 0.002, deepest: 0.3, highest: 0.3 });
  return {
    line,
    water,
    ground,
    ...pumpPlaces({
      ground,
      valley: line,
      pipe,
      source: { cell, water },
      bore: 0.035,
      accuracy: lidar as NonNullable<typeof lidar>,
      settings: USUAL_PLACE_SETTINGS,
    }),
  };
}

describe('the valley line', () => {
  it('follows the stream, and falls along it by slope times length', () => {
    // Closed form: H = m X.
    const { line } = placesIn(0.04);
    expect(line.cells.every((cell) => Math.floor(cell / 260) === 20)).toBe(true);
    for (const [i, at] of line.at.entries())
      expect(100 - 0.04 * 4 - (line.level[i] as number)).toBeCloseTo(0.04 * at, 3);
  });

  it('never rises, and is the least wrong of all that do not, by the loss of the quantile', () => {
    // Least losses under x₁ ≥ x₂ ≥ … by SciPy 1.10.1: linprog on the same heights (min Σ τ u + (1 − τ) v, z − x = u − v).
    const z = [9.0, 8.2, 8.9, 7.1, 7.4, 7.9, 6.0, 6.6, 5.1, 5.2, 5.9, 4.8, 5.0, 3.9];
    for (const [tau, least] of LEAST) {
      const x = carveQuantile(z, tau);
      let loss = 0;
      for (const [i, height] of z.entries()) {
        const off = height - (x[i] as number);
        loss += off >= 0 ? tau * off : (tau - 1) * off;
        if (i > 0) expect(x[i]).toBeLessThanOrEqual(x[i - 1] as number);
      }
      expect(loss).toBeCloseTo(least, 9);
    }
  });
});

const LEAST = [
  [0.3, 1.05],
  [0.4, 1.32],
  [0.5, 1.55],
] as const;

describe('places for the pump', () => {
  it('lie above the flood mark, have their fall, and drive pipes within both rules of length', () => {
    const { places, water, ground, line } = placesIn(0.04);
    expect(places.length).toBeGreaterThan(5);
    for (const place of places) {
      const z = ground.heights[place.pump] as number;
      expect(z).toBeGreaterThanOrEqual((line.level[place.along] as number) + USUAL_PLACE_SETTINGS.floodMark - 1e-3);
      expect(place.fall).toBeLessThan(water - z);
      // Trullinger: 5 to 10 falls; Calvert: 150 to 1000 bores. With too little or too much fall the two have nothing in common.
      if (10 * place.fall < 150 * 0.035 * 1.2 || 5 * place.fall > 1000 * 0.035 * 0.9) continue;
      expect(place.drive.length).toBeGreaterThan(Math.max(5 * place.fall, 150 * 0.035) * 0.98);
      expect(place.drive.length).toBeLessThan(Math.min(10 * place.fall, 1000 * 0.035) * 1.05);
      expect(place.drive.digging).toBe(0);
    }
  });

  it('on a gentle stream need a long supply line: 1 in 100 with 2 m of fall is some 14 m of drive pipe in 200', () => {
    // Closed form: H = m X, drive 7 H = 14 m (10 to 20), the rest is supply line.
    const { places } = placesIn(0.01);
    const two = places.toSorted((a, b) => Math.abs(a.fall - 1.5) - Math.abs(b.fall - 1.5))[0];
    expect(two?.standpipe).not.toBeNull();
    expect(two?.drive.length).toBeLessThan(20);
    expect(two?.supply).toBeGreaterThan(100);
  });

  it('where no standpipe is needed take the drive pipe straight from the source: a stream of 1 in 10 to 1 in 5', () => {
    const { places } = placesIn(0.14);
    expect(places.some((place) => place.standpipe === null)).toBe(true);
  });

  it('are not taken where the fall asks for a longer drive pipe than its bore allows', () => {
    // Bore 35 mm: 1000 bores are 35 m, and three times the fall is more than that from 11.7 m on. 1 in 3 over 45 m is 15 m.
    const { places, refusals, water, ground } = placesIn(0.3);
    for (const { pump } of places) expect(water - (ground.heights[pump] as number)).toBeLessThan(11.7 + 0.5);
    const [great] = refusals.filter(({ code }) => code === 'fall-great');
    expect(great?.excess).toBeGreaterThan(0);
  });

  it('say by how much the ground stands in the way where it does', () => {
    // A step of 3 m across the whole valley, 30 m long, that no trench goes through.
    const { places, refusals } = placesIn(0.02, (c) => (c > 60 && c < 240 ? 4 : 0));
    expect(places.filter((p) => p.along > 70)).toEqual([]);
    expect(refusals.length).toBeGreaterThan(0);
  });

  it('a drive pipe over a hump is dug in as deep as the hump stands above it', () => {
    const ground = openGround(fieldOf(60, 5, (c) => 20 - 0.1 * c + (c === 30 ? 1.05 : 0)));
    const course = driveCourse(ground, 2 * 60 + 5, 2 * 60 + 55);
    expect(course?.rise).toBeCloseTo(1.05, 2);
    expect((course?.highest ?? 0) % 60).toBe(30);
    expect(course?.digging).toBeGreaterThan(0.5);
  });
});

describe('the front of systems', () => {
  const all = [
    { water: 5, outlay: 100, sure: 3 },
    { water: 4, outlay: 120, sure: 3.5 },
    { water: 9, outlay: 300, sure: 2 },
    { water: 7, outlay: 150, sure: 6 },
    { water: 9, outlay: 280, sure: 4 },
  ];

  it('has those that no other beats in both', () => {
    expect(bestFront(all).map(({ water, outlay }) => [water, outlay])).toEqual([
      [5, 100],
      [7, 150],
      [9, 280],
    ]);
  });

  it('names the one with most water, with least pipe, and the surest', () => {
    expect(namesOf(bestFront(all))).toEqual(['least-pipe', 'surest', 'most-water']);
  });
});
