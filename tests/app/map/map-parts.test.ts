import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MAP_COLOURS } from '../../../src/app/map/map-colours.ts';
import { cellStep } from '../../../src/app/map/map-keys.ts';
import { placeOnRoute } from '../../../src/app/map/map-pointer.ts';
import { rolesAtEnd } from '../../../src/app/map/route-ends.ts';
import { roundLength, SCALE_UNITS } from '../../../src/app/map/scale-bar.ts';
import type { GroundLine, TerrainAbout } from '../../../src/terrain/grid/ground.ts';
import { nearestAlong, positionAlong } from '../../../src/terrain/ground/ground-place.ts';

/** A line that runs east along 47° N in steps of a ten-thousandth of a degree and 7.6056 m each. */
const STEP = 7.6056;
const LINE: GroundLine = {
  at: Float64Array.from({ length: 11 }, (_, k) => k * STEP),
  lon: Float64Array.from({ length: 11 }, (_, k) => 11 + k * 1e-4),
  lat: new Float64Array(11).fill(47),
  ground: new Float64Array(11).fill(300),
  known: new Uint8Array(11).fill(1),
  vertices: Uint32Array.of(0, 10),
  voids: [],
  horizontal: 10 * STEP,
  slope: 10 * STEP,
  doubt: { slope: new Float32Array(11), smoothing: new Float32Array(11) },
};

describe('a place along a route', () => {
  test('and the distance to it lead to each other', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 }), (k) => {
        const position = positionAlong(LINE, k * STEP);
        expect(position?.lon).toBeCloseTo(11 + k * 1e-4, 9);
        expect(position && nearestAlong(LINE, position)).toBeCloseTo(k * STEP, 9);
      }),
    );
  });

  test('between two samples lies between them, and beyond the ends at an end', () => {
    expect(positionAlong(LINE, 2.25 * STEP)?.lon).toBeCloseTo(11 + 2.25e-4, 9);
    expect(positionAlong(LINE, -5)?.lon).toBe(11);
    expect(positionAlong(LINE, 1e6)?.lon).toBeCloseTo(11.001, 9);
  });
});

describe('a vertex put into a route', () => {
  const route = [
    { lon: 11, lat: 47 },
    { lon: 11.001, lat: 47 },
    { lon: 11.001, lat: 47.001 },
  ];

  test('stands between the two that it lies between, on the line', () => {
    const first = placeOnRoute(route, { lon: 11.0004, lat: 47.00002 });
    expect(first?.index).toBe(1);
    expect(first?.position.lat).toBeCloseTo(47, 6);
    expect(first?.position.lon).toBeCloseTo(11.0004, 6);
    expect(placeOnRoute(route, { lon: 11.00102, lat: 47.0005 })?.index).toBe(2);
  });

  test('needs a line', () => {
    expect(placeOnRoute(route.slice(0, 1), { lon: 11, lat: 47 })).toBeNull();
  });
});

describe('the ends of a route', () => {
  test('meet the points that its water comes from and goes to', () => {
    expect([...rolesAtEnd('supply', 'from'), ...rolesAtEnd('supply', 'to')]).toEqual(['source', 'standpipe']);
    expect([...rolesAtEnd('drive', 'from')]).toEqual(['standpipe', 'source']);
    expect([...rolesAtEnd('delivery', 'to')]).toEqual(['tank', 'trough']);
    expect([...rolesAtEnd('gravity', 'to')]).toEqual(['trough']);
  });
});

describe('the scale bar', () => {
  test('is a round length that fits and is more than a third of the room', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 1e6, noNaN: true }),
        fc.constantFrom('metric' as const, 'us'),
        (most, units) => {
          const { metres, label } = roundLength(most, SCALE_UNITS[units]);
          expect(metres).toBeLessThanOrEqual(most * (1 + 1e-12));
          expect(label).toMatch(/^(0\.)?[125]0*( |$)|^0\.0*[125] /);
          expect(metres).toBeGreaterThan(most / 3);
        },
      ),
    );
  });

  test('changes from metres to kilometres and from feet to miles', () => {
    expect(roundLength(999, SCALE_UNITS.metric).label).toBe('500 m');
    expect(roundLength(1000, SCALE_UNITS.metric).label).toBe('1 km');
    expect(roundLength(100, SCALE_UNITS.us).label).toBe('200 ft');
    expect(roundLength(3300, SCALE_UNITS.us).label).toBe('2 mi');
  });
});

describe('a nudge by half a cell', () => {
  test('is as long on the ground as GeographicLib says', () => {
    // GeodSolve -i -p 9: "47 11 47 11.01" 760.559982490 m; "46.995 11 47.005 11" 1111.708415032 m.
    const cell = { width: 760.55998249, height: 1111.708415032 };
    const step = cellStep({ cell } as TerrainAbout, 47);
    expect(step.lon).toBeCloseTo(0.01, 8);
    expect(step.lat).toBeCloseTo(0.01, 8);
  });
});

describe('the colours of the map', () => {
  const css = readFileSync(new URL('../../../src/app/style/tokens.css', import.meta.url), 'utf8');
  const [light = '', dark = ''] = css.split(/\[data-theme="dark"\]/);
  const NAMES = { paper: 'paper', sheet: 'sheet', ink: 'ink', inkSoft: 'ink-soft', focus: 'focus' } as const;

  test.each([
    ['light', light],
    ['dark', dark],
  ] as const)('in the %s theme are those of the page', (theme, part) => {
    const stated = (name: string) => new RegExp(`--${name}: (#[0-9a-f]{6})`).exec(part)?.[1];
    for (const [key, name] of Object.entries(NAMES)) {
      expect(MAP_COLOURS[theme][key as keyof typeof NAMES]).toBe(stated(name));
    }
    for (const [role, colour] of Object.entries(MAP_COLOURS[theme].routes)) expect(colour).toBe(stated(role));
  });
});
