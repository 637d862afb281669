import { describe, expect, it } from 'vitest';
import type { FigureNode } from '../../src/report/figure/figure-node.ts';
import { type Box, textWidth } from '../../src/report/figure/text-room.ts';
import { profileFigure } from '../../src/report/profile/profile-figure.ts';
import type { ProfileLeg, ProfileStation, ProfileView } from '../../src/report/profile/profile-view.ts';
import { groundMade } from './ground-made.ts';

/** Pseudo-random numbers that are the same on every run (mulberry32, public domain). */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const ROLES = ['source', 'standpipe', 'pump', 'tank', 'trough'] as const;
const NAMES = ['Spring', 'Standpipe by the old wall', 'Ram', 'Tank on the far shoulder of the hill', 'Trough'];

/** A made-up way of up to four legs over rolling ground, with every high and low point of it. */
function viewOf(seed: number): ProfileView {
  const random = seeded(seed);
  const count = 1 + Math.floor(4 * random());
  const legs: ProfileLeg[] = [];
  let offset = 0;
  let height = 100;
  for (let i = 0; i < count; i += 1) {
    const length = 20 + 400 * random();
    const [swing, waves, rise, start] = [12 * random(), 1 + 4 * random(), 60 * (random() - 0.4), height];
    const at = (x: number) => start + (rise * x) / length + swing * Math.sin((2 * Math.PI * waves * x) / length);
    const hole = random() < 0.3 ? [0.4 * length, (0.5 + 0.2 * random()) * length] : [0, 0];
    const ground = groundMade(length, length / 200, (x) => (x > (hole[0] ?? 0) && x < (hole[1] ?? 0) ? null : at(x)));
    height = at(length);
    legs.push({ ...legOf(i, ground), offset });
    offset += length;
  }
  const ends = [0, ...legs.map((leg) => leg.offset + leg.ground.horizontal)];
  const stations = ends.map((at, i): ProfileStation => {
    const leg = legs[Math.max(0, i - 1)];
    const ground = (i === 0 ? leg?.ground.ground[0] : leg?.ground.ground.at(-1)) ?? 0;
    return { id: `p${i}`, role: ROLES[i] ?? 'tank', name: NAMES[i] ?? '', at, ground, level: ground + 2 * random() };
  });
  const size = { width: 320 + Math.floor(600 * random()), height: 210 + Math.floor(200 * random()) };
  const units = random() < 0.5 ? 'us' : 'metric';
  return { title: 'Profile', legs, stations, units, size, cursor: null, key: 'k' };
}

function legOf(i: number, ground: ProfileLeg['ground']): ProfileLeg {
  const role = (['supply', 'drive', 'delivery', 'gravity'] as const)[i] ?? 'gravity';
  const turnings = Array.from(ground.at, (at, k) => ({ at, k })).flatMap(({ at, k }) => {
    const [before, here, after] = [ground.ground[k - 1], ground.ground[k], ground.ground[k + 1]];
    if (before === undefined || here === undefined || after === undefined) return [];
    if ([k - 1, k, k + 1].some((n) => ground.known[n] !== 1) || (here - before) * (after - here) >= 0) return [];
    return [{ kind: here > before ? ('summit' as const) : ('sag' as const), at, sample: k, ground: here }];
  });
  const result = {
    ...{ id: `r${i}`, role, horizontal: ground.horizontal, slope: ground.slope, start: null, end: null },
    ...{ lowest: null, highest: null, void: 0, turnings, flow: null, velocity: null, friction: null },
    ...{ running: null, still: null, pressure: null, rating: null },
  };
  return { id: `r${i}`, role, name: `Line ${i}`, offset: 0, dug: 0, ground, result, spread: null, emphasis: 'main' };
}

function all(node: FigureNode, wanted: (node: FigureNode) => boolean): FigureNode[] {
  const below = node.children.flatMap((child) => (typeof child === 'string' ? [] : all(child, wanted)));
  return wanted(node) ? [node, ...below] : below;
}

const number = (node: FigureNode, name: string) => Number(node.attributes[name]);
const isOf = (name: string) => (node: FigureNode) => (node.attributes.class ?? '').split(' ').includes(name);

/** The box of a text, by its anchor; letters reach some three quarters of the size above the line. */
function textBox(node: FigureNode, size: number): Box {
  const words = node.children.filter((child) => typeof child === 'string').join('');
  const width = textWidth(words, size);
  const anchor = node.attributes['text-anchor'] ?? 'start';
  const left = number(node, 'x') - (anchor === 'middle' ? width / 2 : anchor === 'end' ? width : 0);
  return { left, top: number(node, 'y') - 0.75 * size, width, height: 0.75 * size };
}

function pathBox(node: FigureNode): Box {
  const values = [...(node.attributes.d ?? '').matchAll(/-?[\d.]+/g)].map(Number);
  const [xs, ys] = [values.filter((_, i) => i % 2 === 0), values.filter((_, i) => i % 2 === 1)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return { left, top, width: Math.max(...xs) - left, height: Math.max(...ys) - top };
}

function touch(a: Box, b: Box): boolean {
  const across = Math.min(a.left + a.width, b.left + b.width) - Math.max(a.left, b.left);
  const down = Math.min(a.top + a.height, b.top + b.height) - Math.max(a.top, b.top);
  return across > 0.1 && down > 0.1;
}

interface Boxes {
  readonly labels: readonly (readonly [string, Box])[];
  readonly marks: readonly (readonly [string, Box])[];
}

function boxesOf(figure: FigureNode): Boxes {
  const words = (node: FigureNode) => node.children.filter((child) => typeof child === 'string').join('');
  const texts = all(figure, ({ tag }) => tag === 'text').map(
    (node) => [words(node), textBox(node, isOf('station-name')(node) ? 12 : 11)] as const,
  );
  const wedges = all(figure, isOf('turning')).flatMap((turning) =>
    all(turning, ({ tag }) => tag === 'path').map((node) => ['wedge', pathBox(node)] as const),
  );
  const symbols = all(figure, isOf('station')).flatMap((station) =>
    all(station, ({ attributes }) => attributes.transform?.startsWith('translate') ?? false).map((node) => {
      const [x = 0, y = 0] = [...(node.attributes.transform ?? '').matchAll(/-?[\d.]+/g)].map(Number);
      return ['symbol', { left: x - 9, top: y - 9, width: 18, height: 18 }] as const;
    }),
  );
  const leaders = all(figure, isOf('leader')).map((node) => {
    const top = Math.min(number(node, 'y1'), number(node, 'y2'));
    const height = Math.abs(number(node, 'y2') - number(node, 'y1'));
    return ['hairline', { left: number(node, 'x1') - 0.5, top, width: 1, height }] as const;
  });
  return { labels: texts, marks: [...wedges, ...symbols, ...leaders] };
}

const SEEDS = Array.from({ length: 250 }, (_, i) => i + 1);

describe('the labels of a profile', () => {
  it('lie under no wedge, symbol, hairline or other label, whatever the way and however narrow the page', () => {
    let wedges = 0;
    for (const seed of SEEDS) {
      const figure = profileFigure(viewOf(seed));
      if (figure === null) throw new Error(`found no profile of way ${seed}, expected one`);
      const { labels, marks } = boxesOf(figure);
      wedges += marks.filter(([kind]) => kind === 'wedge').length;
      for (const [i, [words, box]] of labels.entries()) {
        for (const [kind, mark] of marks) expect(touch(box, mark), `way ${seed}: ${kind} over ${words}`).toBe(false);
        for (const [other, beside] of labels.slice(i + 1))
          expect(touch(box, beside), `way ${seed}: ${other} over ${words}`).toBe(false);
      }
    }
    expect(wedges).toBeGreaterThan(SEEDS.length);
  });

  it('name every point of the way', () => {
    for (const seed of SEEDS) {
      const view = viewOf(seed);
      const figure = profileFigure(view);
      const names = figure === null ? [] : all(figure, isOf('station-name'));
      expect(names.length, `way ${seed}, ${view.size.width} px wide`).toBe(view.stations.length);
    }
  });
});
