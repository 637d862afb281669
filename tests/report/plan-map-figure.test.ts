import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import type { FigureNode } from '../../src/report/figure/figure-node.ts';
import { planMapFigure } from '../../src/report/plan-map/plan-map-figure.ts';
import { mapFrame } from '../../src/report/plan-map/plan-map-frame.ts';
import { letterOf } from '../../src/report/plan-map/plan-map-labels.ts';
import { degreesMinutes } from '../../src/report/print/points-part.ts';
import { planMade } from './plan-made.ts';
import { all, byClass, wordsOf } from './print/print-made.ts';

const size = { width: 680, mostHeight: 480 };

function drawn(plan: Plan, units: 'metric' | 'us' = 'metric'): FigureNode {
  const figure = planMapFigure({ plan, units, contours: [], size, key: 'm' });
  if (figure === null) throw new Error('a plan with points draws a map, found none');
  return figure;
}

const row = planMade(
  ['source', 'standpipe', 'pump', 'tank'],
  [
    ['supply', 'source-1', 'standpipe-1'],
    ['drive', 'standpipe-1', 'pump-1'],
    ['delivery', 'pump-1', 'tank-1'],
  ],
);

describe('the map of a plan on paper', () => {
  it('draws nothing rather than an empty frame while nothing is placed', () => {
    const plan = emptyPlan({ name: 'Nothing yet', units: 'metric' });
    expect(planMapFigure({ plan, units: 'metric', contours: [], size, key: 'm' })).toBeNull();
  });

  it('stretches a degree to the metres it has at its latitude', () => {
    // At 60° a degree of longitude is 55 800 m and one of latitude 111 412 m: WGS 84, closed form of the ellipsoid.
    const frame = mapFrame(
      [
        { lon: 10, lat: 59.99 },
        { lon: 10.02, lat: 60.01 },
      ],
      size,
    );
    if (frame === null) throw new Error('two places make a frame, found none');
    const across = (frame.x(10.01) - frame.x(10)) / 0.01 / frame.perMetre;
    const up = (frame.y(60) - frame.y(60.01)) / 0.01 / frame.perMetre;
    expect(Math.abs(across - 55_800)).toBeLessThan(5);
    expect(Math.abs(up - 111_412)).toBeLessThan(5);
  });

  it('keeps every place inside the plot, north up, also across the antimeridian', () => {
    const place = fc.record({
      lon: fc.double({ min: 179.9, max: 180.1, noNaN: true }).map((lon) => (lon > 180 ? lon - 360 : lon)),
      lat: fc.double({ min: -60, max: -59.9, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 8 }), (places) => {
        const frame = mapFrame(places, size);
        if (frame === null) return false;
        const { plot } = frame;
        return places.every(({ lon, lat }) => {
          const [x, y] = [frame.x(lon), frame.y(lat)];
          const inside = x >= plot.left && x <= plot.left + plot.width && y >= plot.top && y <= plot.top + plot.height;
          return inside && frame.y(lat + 0.001) < y;
        });
      }),
    );
  });

  it('puts each coordinate where it lies', () => {
    const figure = drawn(row);
    const frame = mapFrame(
      row.points.map(({ position }) => position),
      size,
    );
    const ticks = all(figure, ({ attributes }) => attributes['data-lon'] !== undefined);
    expect(ticks.length).toBeGreaterThan(1);
    for (const tick of ticks) {
      const lon = Number(tick.attributes['data-lon']);
      const line = all(tick, ({ tag }) => tag === 'line')[0];
      expect(Number(line?.attributes.x1)).toBeCloseTo(frame?.x(lon) ?? Number.NaN, 1);
      expect(wordsOf(tick)).toMatch(/° W$/);
    }
  });

  it.each([
    ['metric', 1, 'm'],
    ['us', 0.3048, 'ft'],
  ] as const)('draws its scale as long as it says, in %s units', (units, metres, symbol) => {
    const bar = all(drawn(row, units), byClass('scale-bar'))[0];
    const frame = mapFrame(
      row.points.map(({ position }) => position),
      size,
    );
    const edge = bar === undefined ? undefined : all(bar, byClass('bar-edge'))[0];
    const said = Number(new RegExp(`(\\d+) ${symbol}`).exec(bar === undefined ? '' : wordsOf(bar))?.[1]);
    expect(Number(edge?.attributes.width) / (frame?.perMetre ?? 0)).toBeCloseTo(said * metres, 0);
  });

  it('tells lines apart by role and points by symbol and number', () => {
    const figure = drawn(row);
    const routes = all(
      figure,
      ({ attributes }) => attributes['data-id'] !== undefined && byClassStart(attributes.class, 'route'),
    );
    expect(routes.map(({ attributes }) => attributes.class)).toEqual(['route supply', 'route drive', 'route delivery']);
    expect(all(figure, byClass('symbol'))).toHaveLength(4);
    expect(all(figure, byClass('letter')).map((node) => wordsOf(node).trim())).toEqual(['a', 'b', 'c']);
  });

  it('gives long names room or cuts them, and never lets two labels lie on each other', () => {
    const long = 'A very long name of a place that nobody could ever fit on a sheet of paper beside its symbol';
    const plan = { ...row, points: row.points.map((point) => ({ ...point, name: long })) };
    const labels = all(drawn(plan), byClass('point-name'));
    expect(labels.length).toBe(4);
    for (const label of labels) expect(wordsOf(label).length).toBeLessThan(40);
  });
});

function byClassStart(words: string | undefined, start: string): boolean {
  return (words ?? '').split(' ')[0] === start;
}

describe('letters and coordinates', () => {
  it('letters lines on and on', () => {
    expect([0, 25, 26, 27, 51, 52, 701, 702].map(letterOf)).toEqual(['a', 'z', 'aa', 'ab', 'az', 'ba', 'zz', 'aaa']);
  });

  it.each([
    // 1° = 60′: worked by hand.
    [{ lat: 38.001818, lon: -39.997406 }, '38° 00.1091′ N 39° 59.8444′ W'],
    [{ lat: -0.5, lon: 10.25 }, '0° 30.0000′ S 10° 15.0000′ E'],
    [{ lat: 9.99999999, lon: -179.99999999 }, '10° 00.0000′ N 180° 00.0000′ W'],
  ])('writes degrees and minutes and never sixty of them', (position, words) => {
    expect(degreesMinutes(position).replaceAll('\u202f', ' ')).toBe(words);
  });
});
