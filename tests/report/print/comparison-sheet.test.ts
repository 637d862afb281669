import { beforeAll, describe, expect, it } from 'vitest';
import { comparePlans, differingParts } from '../../../src/report/compare/compare-plans.ts';
import type { FigureNode } from '../../../src/report/figure/figure-node.ts';
import { comparisonSheet, type PrintedPair } from '../../../src/report/print/comparison-sheet.ts';
import { htmlText } from '../../../src/report/print/html-text.ts';
import { all, byClass, demoSource, wordsOf } from './print-made.ts';

const HOSTILE = '<img src=x onerror=alert(1)>';

async function onGround(name: string, moved = 0): Promise<PrintedPair['one']> {
  const source = await demoSource((plan) => ({
    ...plan,
    name,
    points: plan.points.map((point) => {
      if (point.name !== 'Spur tank') return point;
      return { ...point, position: { ...point.position, lat: point.position.lat - moved } };
    }),
    routes: plan.routes.map((route) => {
      const end = plan.points.find(({ id, name }) => id === route.to && name === 'Spur tank');
      if (end === undefined) return route;
      const last = { ...end.position, lat: end.position.lat - moved };
      return { ...route, vertices: [...route.vertices.slice(0, -1), last] };
    }),
  }));
  if (source.site === null) throw new Error('found no ground, expected that of the demo');
  return { ...source, site: source.site };
}

describe('two plans on paper', () => {
  let pair: PrintedPair;
  let sheet: FigureNode;

  beforeAll(async () => {
    pair = { drawn: null, one: await onGround('As it was'), other: await onGround(HOSTILE, 0.0003) };
    sheet = comparisonSheet(pair);
  });

  it('are told by every row in which they differ, and no other', () => {
    const comparedOf = ({ plan, site }: PrintedPair['one']) => ({ plan, evaluation: site.evaluation });
    const parts = differingParts(
      comparePlans({ drawn: null, one: comparedOf(pair.one), other: comparedOf(pair.other) }, 'metric'),
    );
    const wanted = parts.flatMap(({ rows }) => rows.map(({ about }) => about));
    expect(wanted).toContain('Spur tank: lift');
    const printed = all(sheet, byClass('compared'))
      .flatMap((table) => all(table, ({ tag, attributes }) => tag === 'th' && attributes.scope === 'row'))
      .map(wordsOf);
    expect(printed).toEqual(wanted);
  });

  it('lie over each other on one map, and in the profile of the one way that differs', () => {
    const [beside] = all(sheet, byClass('beside'));
    if (beside === undefined) throw new Error('found no other plan on the map');
    expect(all(beside, ({ tag }) => tag === 'path')).toHaveLength(pair.other.plan.routes.length);
    const profiles = all(sheet, byClass('profile-figure'));
    expect(profiles).toHaveLength(1);
    for (const profile of profiles) {
      expect(all(profile, byClass('alternative')).map(({ attributes }) => attributes['data-route'])).toEqual(
        all(profile, byClass('main')).map(({ attributes }) => attributes['data-route']),
      );
      // Each of its lines ends in a ring where the second plan has the end.
      expect(all(profile, byClass('other-end')).length).toBe(2 * all(profile, byClass('main')).length);
    }
  });

  it('keep their names text', () => {
    expect(htmlText(sheet)).not.toContain('<img');
    expect(wordsOf(sheet)).toContain(HOSTILE);
  });

  it('are said to be alike when they are one', () => {
    const alike = comparisonSheet({ drawn: null, one: pair.one, other: pair.one });
    expect(all(alike, byClass('compared'))).toEqual([]);
    expect(wordsOf(alike)).toContain('The two plans do not differ.');
  });
});
