import { describe, expect, it } from 'vitest';
import { waterWays, wayFor } from '../../src/report/tables/water-ways.ts';
import { planMade } from './plan-made.ts';

const plan = planMade(
  ['source', 'standpipe', 'pump', 'tank', 'tank', 'trough'],
  [
    ['supply', 'source-1', 'standpipe-1'],
    ['drive', 'standpipe-1', 'pump-1'],
    ['delivery', 'pump-1', 'tank-1'],
    ['delivery', 'pump-1', 'tank-2'],
    ['gravity', 'tank-2', 'trough-1'],
  ],
);

describe('the ways of the water', () => {
  it('lead from where the water starts to each place where it ends', () => {
    const whole = waterWays(plan).filter(({ routes }) => routes.length > 1);
    expect(whole.map(({ routes }) => routes)).toEqual([
      ['supply-1', 'drive-1', 'delivery-1'],
      ['supply-1', 'drive-1', 'delivery-2', 'gravity-1'],
    ]);
    expect(whole.map(({ title }) => title)).toEqual(['Source 1 to Tank 1', 'Source 1 to Trough 1']);
  });

  it('list each route by itself after the whole ways', () => {
    const single = waterWays(plan).filter(({ routes }) => routes.length === 1);
    expect(single.map(({ id }) => id)).toEqual(plan.routes.map(({ id }) => id));
  });

  it('show the way that passes what is looked at, unless one was chosen', () => {
    const through = (lookedAt: { kind: 'point' | 'route'; id: string } | null, chosen: string | null = null) =>
      wayFor(plan, { chosen, lookedAt })?.routes.at(-1);
    expect(through(null)).toBe('delivery-1');
    expect(through({ kind: 'point', id: 'trough-1' })).toBe('gravity-1');
    expect(through({ kind: 'route', id: 'delivery-2' })).toBe('gravity-1');
    expect(through({ kind: 'point', id: 'trough-1' }, 'drive-1')).toBe('drive-1');
    expect(through({ kind: 'point', id: 'trough-1' }, 'gone-1')).toBe('gravity-1');
  });

  it('are none while no route is drawn', () => {
    expect(wayFor(planMade(['source', 'pump']), { chosen: null, lookedAt: null })).toBeNull();
  });
});
