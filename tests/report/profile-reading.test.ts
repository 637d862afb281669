import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { profilePlaceOf, profileReading } from '../../src/report/profile/profile-reading.ts';
import type { ProfileLeg } from '../../src/report/profile/profile-view.ts';
import { groundMade } from './ground-made.ts';

function leg(id: string, offset: number, ground: ProfileLeg['ground']): ProfileLeg {
  return { id, role: 'delivery', name: id, offset, ground, dug: 0, result: null, spread: null, emphasis: 'main' };
}

/** A plane that rises 0.1 m a metre: the height at any distance is known in closed form. */
const plane = [
  leg(
    'one',
    0,
    groundMade(80, 0.5, (at) => 100 + 0.1 * at),
  ),
  leg(
    'two',
    80,
    groundMade(120, 0.5, (at) => 108 + 0.1 * at),
  ),
];

describe('reading a profile', () => {
  it('gives the height of a plane at any distance, across the joint of two routes', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (at) => {
        const reading = profileReading({ legs: plane }, at);
        expect(reading?.ground).toBeCloseTo(100 + 0.1 * at, 9);
        expect(reading?.at).toBeCloseTo(at, 9);
      }),
    );
  });

  it('stops at the ends', () => {
    expect(profileReading({ legs: plane }, -50)?.ground).toBe(100);
    expect(profileReading({ legs: plane }, 999)?.ground).toBeCloseTo(120, 9);
  });

  it('says that there is no height in a void and beside it', () => {
    const torn = [
      leg(
        'torn',
        0,
        groundMade(100, 1, (at) => (at > 40 && at < 60 ? null : 10)),
      ),
    ];
    expect(profileReading({ legs: torn }, 50)?.ground).toBeNull();
    expect(profileReading({ legs: torn }, 40.5)?.ground).toBeNull();
    expect(profileReading({ legs: torn }, 40)?.ground).toBe(10);
    expect(profileReading({ legs: torn }, 60)?.ground).toBe(10);
  });

  it('reads the water line straight between its corners', () => {
    const result = {
      id: 'w',
      role: 'delivery' as const,
      horizontal: 100,
      slope: 100,
      start: 0,
      end: 0,
      lowest: 0,
      highest: 0,
      void: 0,
      turnings: [],
      flow: null,
      velocity: null,
      friction: null,
      pressure: null,
      rating: null,
      running: { at: [0, 25, 100], head: [60, 50, 20] },
      still: 20,
    };
    const legs = [
      {
        ...leg(
          'w',
          0,
          groundMade(100, 1, () => 0),
        ),
        result,
      },
    ];
    expect(profileReading({ legs }, 0)?.running).toBe(60);
    expect(profileReading({ legs }, 12.5)?.running).toBeCloseTo(55, 9);
    expect(profileReading({ legs }, 62.5)?.running).toBeCloseTo(35, 9);
    expect(profileReading({ legs }, 100)?.running).toBe(20);
    expect(profileReading({ legs }, 62.5)?.still).toBe(20);
  });

  it('comes back to the same place through the route it names', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (at) => {
        const reading = profileReading({ legs: plane }, at);
        if (reading === null) throw new Error('a profile with legs can be read, found null');
        expect(profilePlaceOf({ legs: plane }, reading.route, reading.alongRoute)).toBeCloseTo(at, 9);
      }),
    );
  });
});
