import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import jsQR from 'jsqr';
import { describe, expect, test } from 'vitest';
import { holdsPlan, MOST_LINK, planFragment, readPlanFragment } from '../../../src/plan/exchange/plan-link.ts';
import { readPlan } from '../../../src/plan/file/read-plan.ts';
import { codeFigure } from '../../../src/report/figure/code-figure.ts';
import type { FigureNode } from '../../../src/report/figure/figure-node.ts';
import { samplePlan } from '../sample-plan.ts';

const demo = readPlan(readFileSync('data/demo/plan.geojson', 'utf8'));
if (!demo.ok) throw new Error('found a demo plan that cannot be read');
const plans = [
  ['the sample', samplePlan],
  ['the demo', demo.value],
] as const;

describe('a link', () => {
  test.each(plans)('carries %s in the part of an address that is never sent', (_, plan) => {
    const fragment = planFragment(plan);
    expect(fragment).toMatch(/^#plan=1\.[A-Z2-7]+$/);
    expect(fragment.length).toBeLessThanOrEqual(MOST_LINK);
    expect(holdsPlan(fragment)).toBe(true);
    const read = readPlanFragment(fragment);
    const { terrain, mapTiles: _tiles, ...rest } = plan;
    expect(read).toMatchObject({ ok: true, value: { ...rest, mapTiles: null } });
    expect(read.ok && read.value.terrain?.accuracy).toBe(terrain?.accuracy);
  });

  test('carries no key of a map, and no address of an elevation file', () => {
    const plan = {
      ...samplePlan,
      mapTiles: { address: 'https://tiles.example/{z}/{x}/{y}?key=secret', attribution: 'x' },
      terrain: { files: ['https://example.org/a/dem.tif?key=secret'], accuracy: null, constants: null },
    };
    const read = readPlanFragment(planFragment(plan));
    expect(JSON.stringify(read)).not.toMatch(/secret|example/);
    expect(read.ok && read.value.terrain?.files).toEqual(['dem.tif']);
  });

  test('that was cut off or changed anywhere is refused, and never another plan', () => {
    const fragment = planFragment(demo.value);
    const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
    fc.assert(
      fc.property(fc.nat(fragment.length - 9), fc.nat(31), fc.boolean(), (at, letter, cut) => {
        const k = at + 8;
        const damaged = cut ? fragment.slice(0, k) : fragment.slice(0, k) + letters[letter] + fragment.slice(k + 1);
        const read = readPlanFragment(damaged);
        if (read.ok) expect(read.value).toEqual((readPlanFragment(fragment) as { value: unknown }).value);
        else expect(read.problems[0]?.code).toBe('link');
      }),
      { seed: 3, numRuns: 400 },
    );
  });

  test.each(['#plan=2.AAAA', '#plan=1.', '#plan=1.!!!!', '#plan=1.AAAAAAAAAAAA', '#plan='])(
    '%s is refused',
    (fragment) => {
      expect(holdsPlan(fragment)).toBe(true);
      expect(readPlanFragment(fragment)).toMatchObject({ ok: false, problems: [{ code: 'link' }] });
    },
  );
});

/** A figure of dark squares as the pixels that a camera would see, three to a module. */
function photographed(figure: FigureNode): { pixels: Uint8ClampedArray; side: number } {
  const side = Number(String(figure.attributes['viewBox']).split(' ')[2]);
  const path = figure.children
    .map((child) => (typeof child === 'object' ? String(child.attributes['d'] ?? '') : ''))
    .join('');
  const scale = 3;
  const pixels = new Uint8ClampedArray(4 * (side * scale) ** 2).fill(255);
  for (const [, x = '0', y = '0', width = '0'] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let row = Number(y) * scale; row < (Number(y) + 1) * scale; row += 1) {
      for (let column = Number(x) * scale; column < (Number(x) + Number(width)) * scale; column += 1) {
        pixels.fill(0, 4 * (row * side * scale + column), 4 * (row * side * scale + column) + 3);
      }
    }
  }
  return { pixels, side: side * scale };
}

// jsQR is a reader of such codes that shares nothing with the writer.
describe('a code to photograph', () => {
  test.each(plans)('carries the link of %s', (_, plan) => {
    const link = `https://planner.example/rillwright/${planFragment(plan)}`;
    const figure = codeFigure(link, 'The plan');
    if (figure === null) throw new Error('found no code, expected one');
    const { pixels, side } = photographed(figure);
    expect(jsQR(pixels, side, side)?.data).toBe(link);
  });

  test('is not made of what does not fit into one', () => {
    expect(codeFigure('A'.repeat(5000), 'too long')).toBeNull();
  });
});
