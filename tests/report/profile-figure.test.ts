import { describe, expect, it } from 'vitest';
import type { FigureNode } from '../../src/report/figure/figure-node.ts';
import { svgText } from '../../src/report/figure/figure-svg.ts';
import { profileFigure } from '../../src/report/profile/profile-figure.ts';
import type { ProfileLeg, ProfileView } from '../../src/report/profile/profile-view.ts';
import { expectGolden } from './golden.ts';
import { groundMade } from './ground-made.ts';

const supplyGround = groundMade(60, 0.5, (at) => 104 - at * 0.02);
const driveGround = groundMade(40, 0.5, (at) => 102.8 - at * 0.12);
const deliveryGround = groundMade(300, 0.5, (at) => {
  if (at > 120 && at < 150) return null;
  return 98 + at * 0.06 + 9 * Math.exp(-(((at - 200) / 40) ** 2));
});

const supply: ProfileLeg = {
  id: 'r1',
  role: 'supply',
  name: 'Supply line',
  offset: 0,
  dug: 0,
  ground: supplyGround,
  result: {
    id: 'r1',
    role: 'supply',
    horizontal: 60,
    slope: 60.01,
    start: 104,
    end: 102.8,
    lowest: 102.8,
    highest: 104,
    void: 0,
    turnings: [],
    flow: 0.0007,
    velocity: 0.3,
    friction: 0.2,
    running: { at: [0, 60], head: [104.2, 103.7] },
    still: 104.2,
    pressure: null,
    rating: null,
  },
  spread: Float64Array.from(supplyGround.at, (at) => 0.02 * Math.sqrt(at)),
  emphasis: 'main',
};

const drive: ProfileLeg = {
  ...supply,
  id: 'r2',
  role: 'drive',
  name: 'Drive pipe',
  offset: 60,
  dug: 0,
  ground: driveGround,
  result: null,
};

const delivery: ProfileLeg = {
  ...supply,
  id: 'r3',
  role: 'delivery',
  name: 'Delivery line to the bench',
  offset: 100,
  dug: 0,
  ground: deliveryGround,
  spread: Float64Array.from(deliveryGround.at, (at) => 0.02 * Math.sqrt(at)),
  result: {
    id: 'r3',
    role: 'delivery',
    horizontal: 300,
    slope: 303,
    start: 98,
    end: 116.02,
    lowest: 98,
    highest: 119,
    void: 30,
    turnings: [
      { kind: 'summit', at: 204, ground: 119.15, sample: 408 },
      { kind: 'sag', at: 262, ground: 114.55, sample: 524 },
    ],
    flow: 0.00005,
    velocity: 0.2,
    friction: 1.1,
    running: { at: [0, 300], head: [118.8, 117.7] },
    still: 117.7,
    pressure: null,
    rating: null,
  },
};

const view: ProfileView = {
  title: 'Profile from Spring to Bench tank',
  legs: [supply, drive, delivery],
  stations: [
    { id: 'a', role: 'source', name: 'Spring <in> the gully & below', at: 0, ground: 104, level: 104.2 },
    { id: 'b', role: 'standpipe', name: 'Standpipe', at: 60, ground: 102.8, level: 103.2 },
    { id: 'c', role: 'pump', name: 'Pump', at: 100, ground: 98, level: 98.3 },
    { id: 'd', role: 'tank', name: 'Bench tank', at: 400, ground: 116.02, level: 117.7 },
  ],
  units: 'metric',
  size: { width: 900, height: 280 },
  cursor: 180,
  key: 'p',
};

function all(node: FigureNode, wanted: (node: FigureNode) => boolean): FigureNode[] {
  const below = node.children.flatMap((child) => (typeof child === 'string' ? [] : all(child, wanted)));
  return wanted(node) ? [node, ...below] : below;
}

function drawn(changes: Partial<ProfileView> = {}): FigureNode {
  const figure = profileFigure({ ...view, ...changes });
  if (figure === null) throw new Error('a profile with heights draws a figure, found null');
  return figure;
}

const byClass = (name: string) => (node: FigureNode) => (node.attributes.class ?? '').split(' ').includes(name);
const words = (node: FigureNode) => node.children.filter((child) => typeof child === 'string').join('');

/** Heights and distances of an axis: what a tick says and where it stands. */
function ticks(figure: FigureNode, axis: 'staff' | 'chain'): { says: number; place: number }[] {
  const group = all(figure, byClass(axis))[0];
  if (group === undefined) throw new Error(`the figure has an axis ${axis}, found none`);
  return all(group, byClass('tick')).map((tick) => {
    const text = all(tick, (node) => node.tag === 'text')[0];
    const mark = all(tick, (node) => node.tag === (axis === 'staff' ? 'line' : 'circle'))[0];
    return {
      says: Number(
        text === undefined
          ? Number.NaN
          : words(text)
              .replace(/[\u202f,]/g, '')
              .replace('−', '-'),
      ),
      place: Number(axis === 'staff' ? mark?.attributes.y1 : mark?.attributes.cx),
    };
  });
}

describe('the profile figure', () => {
  it('draws the way of the water from spring to tank in metres', () => {
    expectGolden('profile-metric.svg', svgText(drawn()));
  });

  it('draws the same way in feet', () => {
    expectGolden('profile-us.svg', svgText(drawn({ units: 'us', cursor: null })));
  });

  it('draws a single narrow route for a telephone', () => {
    expectGolden(
      'profile-narrow.svg',
      svgText(
        drawn({ legs: [{ ...delivery, offset: 0 }], stations: [], size: { width: 360, height: 220 }, cursor: null }),
      ),
    );
  });

  it('shows nothing rather than an empty frame while no height is known', () => {
    const without = groundMade(50, 1, () => null);
    expect(profileFigure({ ...view, legs: [{ ...drive, offset: 0, ground: without }], stations: [] })).toBeNull();
  });

  it.each(['metric', 'us'] as const)('puts distance ticks where the distance they state lies, in %s units', (units) => {
    const found = ticks(drawn({ units }), 'chain');
    const perUnit = ((900 - 62 - 22) / 400) * (units === 'us' ? 0.3048 : 1);
    expect(found.length).toBeGreaterThan(3);
    for (const { says, place } of found) expect(place).toBeCloseTo(62 + says * perUnit, 1);
  });

  it.each(['metric', 'us'] as const)('spaces height ticks evenly and downwards, in %s units', (units) => {
    const found = ticks(drawn({ units }), 'staff');
    const slope = found.slice(1).map((tick, index) => {
      const before = found[index];
      return before === undefined ? Number.NaN : (tick.place - before.place) / (tick.says - before.says);
    });
    expect(found.length).toBeGreaterThan(2);
    for (const each of slope) expect(each).toBeCloseTo(slope[0] ?? Number.NaN, 1);
    expect(slope[0]).toBeLessThan(0);
  });

  it('ends the ground line of a leg at its length along the distance axis', () => {
    const line = all(drawn(), byClass('ground-line'))[0];
    const places = (line?.attributes.d ?? '').match(/[-\d.]+ [-\d.]+/g) ?? [];
    const ends = [places[0], places.at(-1)].map((place) => Number(place?.split(' ')[0]));
    expect(ends[0]).toBeCloseTo(62, 2);
    expect(ends[1]).toBeCloseTo(62 + (60 / 400) * 816, 1);
  });

  it('interrupts ground and pipe over a stretch without heights', () => {
    const figure = drawn({ legs: [{ ...delivery, offset: 0 }], stations: [] });
    expect(all(figure, byClass('ground-line'))).toHaveLength(2);
    expect(all(figure, byClass('void'))).toHaveLength(1);
    expect(all(figure, byClass('pipe-line'))[0]?.attributes.d?.match(/M/g)).toHaveLength(2);
  });

  it('never writes a name as markup', () => {
    const text = svgText(drawn());
    expect(text).not.toContain('<in>');
    expect(text).toContain('&lt;in&gt;');
  });

  it('states how much heights are stretched', () => {
    const chain = all(drawn(), byClass('chain'))[0];
    const unit = chain === undefined ? [] : all(chain, byClass('unit')).map(words);
    const heights = ticks(drawn(), 'staff');
    const up = Math.abs(
      ((heights[1]?.place ?? 0) - (heights[0]?.place ?? 0)) / ((heights[1]?.says ?? 0) - (heights[0]?.says ?? 0)),
    );
    const stated = Number(/drawn ([\d.]+) ×/.exec(unit[0] ?? '')?.[1]);
    expect(Math.abs(stated - up / (816 / 400))).toBeLessThan(0.051);
  });
});

describe('profiles laid over each other', () => {
  const compared = { ...delivery, id: 'r4', offset: 100, emphasis: 'compared' as const };

  it('draw a compared route as its pipe line alone', () => {
    const figure = drawn({ legs: [supply, drive, delivery, compared] });
    const of = (name: string) => all(figure, byClass(name)).filter((node) => node.attributes['data-route'] === 'r4');
    expect(of('pipe')).toHaveLength(1);
    expect(of('ground')).toHaveLength(0);
    expect(of('water')).toHaveLength(0);
  });

  it('leave room for a compared route that is longer and higher', () => {
    const higher = { ...compared, ground: groundMade(500, 1, (at) => 98 + at * 0.2) };
    const last = ticks(drawn({ legs: [supply, drive, delivery, higher] }), 'chain').at(-1);
    expect(last?.says).toBeLessThanOrEqual(600);
    expect(last?.says).toBeGreaterThan(400);
    const top = ticks(drawn({ legs: [supply, drive, delivery, higher] }), 'staff').at(-1);
    expect(top?.says).toBeGreaterThan(180);
  });
});
