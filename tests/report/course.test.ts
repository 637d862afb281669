import { describe, expect, it } from 'vitest';
import { type CourseRow, courseOf } from '../../src/report/tables/course.ts';
import { planMade } from './plan-made.ts';

/** A row in a word: the name of what is there, or what is missing. */
function told(row: CourseRow): string {
  switch (row.kind) {
    case 'point':
      return row.point.id;
    case 'route':
      return row.route.id;
    case 'missing-point':
      return `no ${row.role}`;
    case 'missing-route':
      return `no ${row.role} line${row.ends === null ? '' : ' yet'}`;
  }
}

describe('the way of the water', () => {
  it('starts with every part that is still to be placed, in the order of the water', () => {
    expect(courseOf(planMade([])).map(told)).toEqual([
      'no source',
      'no supply line',
      'no standpipe',
      'no drive line',
      'no pump',
      'no tank',
    ]);
  });

  it('offers a line as soon as both its ends stand', () => {
    expect(courseOf(planMade(['source', 'standpipe', 'pump', 'tank'])).map(told)).toEqual([
      'source-1',
      'no supply line yet',
      'standpipe-1',
      'no drive line yet',
      'pump-1',
      'no delivery line yet',
      'tank-1',
    ]);
  });

  it('leaves the standpipe out where the drive pipe comes from the source itself', () => {
    const plan = planMade(['source', 'pump'], [['drive', 'source-1', 'pump-1']]);
    expect(courseOf(plan).map(told)).toEqual(['source-1', 'drive-1', 'pump-1', 'no tank']);
  });

  it('puts each trough behind the tank that feeds it, and those of the source at the end', () => {
    const plan = planMade(
      ['source', 'pump', 'tank', 'tank', 'trough', 'trough'],
      [
        ['drive', 'source-1', 'pump-1'],
        ['delivery', 'pump-1', 'tank-1'],
        ['delivery', 'pump-1', 'tank-2'],
        ['gravity', 'tank-1', 'trough-1'],
        ['gravity', 'source-1', 'trough-2'],
      ],
    );
    expect(courseOf(plan).map(told)).toEqual([
      'source-1',
      'drive-1',
      'pump-1',
      'delivery-1',
      'tank-1',
      'gravity-1',
      'trough-1',
      'delivery-2',
      'tank-2',
      'gravity-2',
      'trough-2',
    ]);
  });

  it('shows every point and every route once, whatever is drawn', () => {
    const plan = planMade(
      ['source', 'standpipe', 'pump', 'tank', 'trough', 'trough', 'trough'],
      [
        ['supply', 'source-1', 'standpipe-1'],
        ['drive', 'standpipe-1', 'pump-1'],
        ['gravity', 'tank-1', 'trough-2'],
        ['gravity', 'source-1', 'trough-1'],
        ['delivery', 'pump-1', 'trough-3'],
      ],
    );
    const shown = courseOf(plan).map(told);
    for (const { id } of [...plan.points, ...plan.routes]) {
      expect(shown.filter((each) => each === id)).toEqual([id]);
    }
  });
});
