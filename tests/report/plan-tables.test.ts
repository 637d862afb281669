import { describe, expect, it } from 'vitest';
import { findingTable, lineTable, pointTable, tankTable } from '../../src/report/tables/plan-tables.ts';
import { noAnswer } from './no-answer.ts';
import { planMade } from './plan-made.ts';

const plan = planMade(['source', 'pump', 'tank'], [['drive', 'source-1', 'pump-1']]);
const reported = { plan, evaluation: null, units: 'metric' } as const;

describe('tables of a plan', () => {
  it('have as many cells in a row as there are columns', () => {
    for (const table of [pointTable(reported), lineTable(reported), tankTable(reported), findingTable(reported)]) {
      for (const { cells } of table.rows) expect(cells).toHaveLength(table.columns.length);
    }
  });

  it('list every point and line, with a dash where nothing is known yet', () => {
    expect(pointTable(reported).rows.map(({ id }) => id)).toEqual(['source-1', 'pump-1', 'tank-1']);
    expect(pointTable(reported).rows[0]?.cells).toEqual(['Source 1', 'Source', '-30', '38', '–', '–', '–']);
    expect(lineTable(reported).rows.map(({ cells }) => cells[0])).toEqual(['Drive 1']);
  });

  it('write a measured ground as measured', () => {
    const evaluation = {
      points: [{ id: 'pump-1', role: 'pump', ground: 12.5, groundFrom: 'measured', level: 12.7, smoothing: 0 }],
      lines: [],
      source: { flow: null, available: null, drawn: null },
      pump: null,
      standpipe: null,
      tanks: [],
      troughs: [],
      years: null,
      findings: [],
      measureFirst: [],
      verdict: null,
      answer: noAnswer,
    } as const;
    const cells = pointTable({ ...reported, evaluation, units: 'us' }).rows[1]?.cells.slice(4);
    // 12.5 m / 0.3048 = 41.01 ft, 12.7 m = 41.67 ft.
    expect(cells).toEqual(['41.0\u202fft', 'measured', 'waste valve 41.7\u202fft']);
  });
});
