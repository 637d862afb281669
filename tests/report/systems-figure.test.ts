import { expect, it } from 'vitest';
import { systemsFigure } from '../../src/report/figure/systems-figure.ts';

const view = {
  title: 'Systems',
  size: { width: 680, height: 260 },
  axes: { x: 'pipe', y: 'arrives' },
  words: { x: (value: number) => `${value} m`, y: (value: number) => `${value} L/day` },
};

it('whole systems stand further right the more pipe they take and higher the more they bring, each with its range', () => {
  const points = [
    { x: 100, low: 400, likely: 500, high: 600 },
    { x: 300, low: 700, likely: 900, high: 1000 },
  ];
  const figure = systemsFigure({ ...view, points });
  const of = (tag: string, kind: string) =>
    (figure?.children ?? []).flatMap((node) =>
      typeof node !== 'string' && node.tag === tag && node.attributes.class === kind ? [node.attributes] : [],
    );
  const dots = of('circle', 'dot').map(({ cx, cy }) => [Number(cx), Number(cy)] as const);
  expect(dots).toHaveLength(2);
  const [[x1 = 0, y1 = 0] = [], [x2 = 0, y2 = 0] = []] = dots;
  // Both axes begin at nought: three times the pipe lies three times as far from it.
  expect((x2 - 58) / (x1 - 58)).toBeCloseTo(3, 1);
  expect(y2).toBeLessThan(y1);
  for (const [i, { y1: low, y2: high }] of of('line', 'range').entries()) {
    expect(Number(low)).toBeGreaterThan(dots[i]?.[1] ?? Number.NaN);
    expect(Number(high)).toBeLessThan(dots[i]?.[1] ?? Number.NaN);
  }
});

it('without a system there is no figure', () => {
  expect(systemsFigure({ ...view, points: [] })).toBeNull();
});
