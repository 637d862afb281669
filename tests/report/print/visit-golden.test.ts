import { beforeAll, describe, it } from 'vitest';
import type { FigureNode } from '../../../src/report/figure/figure-node.ts';
import { svgText } from '../../../src/report/figure/figure-svg.ts';
import { planMapFigure } from '../../../src/report/plan-map/plan-map-figure.ts';
import { htmlText } from '../../../src/report/print/html-text.ts';
import type { PrintSource } from '../../../src/report/print/print-source.ts';
import { visitSheet } from '../../../src/report/print/visit-sheet.ts';
import { yearFigure } from '../../../src/report/tables/year-figure.ts';
import { expectGolden } from '../golden.ts';
import { demoPlan, demoSource } from './print-made.ts';

/** Numbers to two digits, so that the last digits of the reckoning do not count; drawings by their kind alone. */
function structure(node: FigureNode): FigureNode {
  if (node.tag === 'svg') return { tag: 'svg', attributes: { class: node.attributes.class ?? '' }, children: [] };
  const children = node.children.map((child) => (typeof child === 'string' ? rounded(child) : structure(child)));
  return { ...node, children };
}

function rounded(text: string): string {
  return text.replace(/\d+(\.\d+)?/g, (digits) => String(Number(Number(digits).toPrecision(2))));
}

describe('what is printed of the demo', () => {
  let source: PrintSource;

  beforeAll(async () => {
    source = await demoSource();
  });

  it('has the sheet for the visit as it was looked at', () => {
    expectGolden('visit-sheet.html', htmlText(structure(visitSheet(source))));
  });

  it.each(['metric', 'us'] as const)('has the map as it was looked at, in %s units', (units) => {
    const plan = demoPlan();
    const contours = [180, 185].map((height, i) => ({
      height,
      index: i === 0,
      line: [-39.997, -39.9955, -39.994].map((lon, k) => ({ lon, lat: 38.0012 + i * 0.0006 + k * 0.0002 })),
    }));
    const figure = planMapFigure({ plan, units, contours, size: { width: 680, mostHeight: 480 }, key: 'map' });
    if (figure === null) throw new Error('a plan with points draws a map, found none');
    expectGolden(`plan-map-${units}.svg`, svgText(figure));
  });

  it('has the year as it was looked at', () => {
    const months = Array.from({ length: 12 }, (_, m) => ({
      deliveryPerDay: 2 - m * 0.12,
      needPerDay: m > 3 && m < 9 ? 1.4 : 0.9,
      overflow: 0,
      shortfall: 0,
      daysShort: m === 8 ? 4 : 0,
      lowest: 1,
    }));
    const figure = yearFigure(months, {
      units: 'metric',
      size: { width: 680, height: 180 },
      title: 'Through the year',
    });
    if (figure === null) throw new Error('a year with water draws a figure, found none');
    expectGolden('year-metric.svg', svgText(figure));
  });
});
