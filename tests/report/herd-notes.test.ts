import { expect, test } from 'vitest';
import type { Plan } from '../../src/plan/model/plan.ts';
import { herdNotes } from '../../src/report/tables/herd-notes.ts';
import { workingPlan } from '../evaluation/made-plan.ts';

const hot = (row: string, celsius: number): Plan => ({
  ...workingPlan,
  herd: [{ kind: 'row', row, count: 10 }],
  year: Array.from({ length: 12 }, (_, i) => ({
    season: 'summer' as const,
    sourceShare: 1,
    airTemperature: i === 6 ? celsius : 10,
  })),
});

test('a month warmer than the animals’ last printed temperature is told, with the row that goes further', () => {
  const [note] = herdNotes(hot('beef-pregnant-1100-lb-ndsu', 31), 'us');
  expect(note).toMatch(/ends at 70.°F/);
  expect(note).toMatch(/“beef, dry pregnant cow” .* up to 90.°F/);
  expect(herdNotes(hot('beef-pregnant-1100-lb-ndsu', 20), 'us')).toEqual([]);
});

test('an odd printed row carries a note in any weather', () => {
  expect(herdNotes(hot('beef-lactating-900-lb-ndsu', 10), 'metric').join()).toMatch(
    /falls from 67\.8.L\/day at 26\.?7?.* to 61\.3/,
  );
});
