import { describe, expect, it } from 'vitest';
import { destination, distanceBetween } from '../../../src/geodesy/geodesic.ts';
import { commit, startHistory, undo } from '../../../src/plan/edits/history.ts';
import { type ImportChoices, suggestChoices } from '../../../src/plan/exchange/import-choices.ts';
import { type Imported, importInto } from '../../../src/plan/exchange/import-into.ts';
import type { ImportPreview } from '../../../src/plan/exchange/import-preview.ts';
import { readPlan } from '../../../src/plan/file/read-plan.ts';
import { writePlan } from '../../../src/plan/file/write-plan.ts';
import { emptyPlan } from '../../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { samplePlan } from '../sample-plan.ts';
import { gpxOf, previewOf, sample } from './read-text.ts';

const empty = emptyPlan({ name: 'Made for a test', units: 'metric' });
const choicesOf = (changes: Partial<ImportChoices>): ImportChoices => {
  return { points: [], lines: [], reach: 15, tolerance: 0, ...changes };
};

function imported(plan: Plan, preview: ImportPreview, choices: ImportChoices): Imported {
  const outcome = importInto(plan, preview, choices);
  if (!outcome.ok) throw new Error(`the test's import was refused: ${JSON.stringify(outcome.problems)}`);
  return outcome.value;
}

function problemsOf(plan: Plan, preview: ImportPreview, choices: ImportChoices) {
  const outcome = importInto(plan, preview, choices);
  return outcome.ok ? [] : outcome.problems;
}

const pump = { lon: -40, lat: 38 };
const tank = { lon: -39.99, lat: 38.005 };
const wpt = (name: string, { lon, lat }: typeof pump) => `<wpt lat="${lat}" lon="${lon}"><name>${name}</name></wpt>`;
const rte = (name: string, places: readonly (typeof pump)[]) =>
  `<rte><name>${name}</name>${places.map(({ lon, lat }) => `<rtept lat="${lat}" lon="${lon}"/>`).join('')}</rte>`;
/** A file with pump, tank and a delivery line whose ends lie so far from them. */
function lineFile(metres: { readonly start: number; readonly end: number }, turned = false): ImportPreview {
  const start = destination(pump, { distance: metres.start, azimuth: 20 });
  const end = destination(tank, { distance: metres.end, azimuth: -70 });
  const places = [start, { lon: -39.995, lat: 38.004 }, end];
  const line = rte('Delivery', turned ? places.toReversed() : places);
  return previewOf(gpxOf(`${wpt('Ram', pump)}${wpt('Tank', tank)}${line}`));
}

describe('importing into a plan', () => {
  it('adds points with their roles and a line between them, in one step that is undone as one', () => {
    const preview = previewOf(sample('field-day.gpx'));
    const step = imported(empty, preview, suggestChoices(empty, preview));
    expect(step.plan.points.map(({ role, name }) => [role, name])).toEqual([
      ['source', 'Spring box'],
      ['pump', 'Pump & pit'],
      ['tank', 'Tank <upper>'],
    ]);
    expect(step.plan.routes.map(({ role, name, from, to }) => [role, name, from, to])).toEqual([
      ['delivery', 'Delivery', 'pump-1', 'tank-1'],
    ]);
    expect(step.label).toEqual({ code: 'import-items', name: 'made for a test' });
    expect(undo(commit(startHistory(empty), step)).present).toBe(empty);
  });

  it('leaves a plan that is saved and opened again as it is', () => {
    const preview = previewOf(sample('farm.kml'));
    const { plan } = imported(samplePlan, preview, suggestChoices(samplePlan, preview));
    expect(readPlan(writePlan(plan))).toEqual({ ok: true, value: plan });
  });

  it('keeps heights in words and gives none to the plan', () => {
    const preview = previewOf(sample('field-day.gpx'));
    const { plan } = imported(empty, preview, suggestChoices(empty, preview));
    expect(plan.points.map(({ note }) => note)).toEqual([
      'Height in the imported file: 104.62 m. Not used.\nOnly a comment',
      'Level place,\n      two steps down',
      'Height in the imported file: 131 m. Not used.',
    ]);
    expect(plan.measurements).toEqual([]);
  });

  it('moves the ends of a line to the nearest points within reach, and says how far', () => {
    const preview = lineFile({ start: 12, end: 14.5 });
    const { plan, lines } = imported(empty, preview, suggestChoices(empty, preview));
    expect(plan.routes[0]?.vertices).toEqual([pump, { lon: -39.995, lat: 38.004 }, tank]);
    expect(lines[0]?.from.moved).toBeCloseTo(12, 6);
    expect(lines[0]?.to.moved).toBeCloseTo(14.5, 6);
    expect(lines[0]).toMatchObject({ reversed: false, vertices: 3, dropped: 0 });
  });

  it('refuses a line whose end lies beyond the reach, with what was found and expected', () => {
    const preview = lineFile({ start: 3, end: 15.2 });
    expect(problemsOf(empty, preview, suggestChoices(empty, preview))).toEqual([
      {
        code: 'end-out-of-reach',
        path: 'line 1, rte',
        found: 'its end 15.2 m from Tank, the nearest',
        expected: 'a tank or a trough within 15 m of the end',
      },
    ]);
  });

  it('turns a line that was walked against the water', () => {
    const preview = lineFile({ start: 2, end: 3 }, true);
    const { plan, lines } = imported(empty, preview, suggestChoices(empty, preview));
    expect(lines[0]?.reversed).toBe(true);
    expect(plan.routes[0]).toMatchObject({ from: 'pump-1', to: 'tank-1', vertices: [pump, { lat: 38.004 }, tank] });
  });

  it('refuses a line while there is no point that it could begin at', () => {
    const preview = previewOf(gpxOf(`${wpt('Tank', tank)}${rte('Delivery', [pump, tank])}`));
    expect(problemsOf(empty, preview, suggestChoices(empty, preview))).toMatchObject([
      { code: 'end-without-point', found: 'no pump', expected: 'a pump for the start of a delivery line' },
    ]);
  });

  it('offers the one source, standpipe and pump of a plan to the first that speak of them, and never a second', () => {
    const preview = previewOf(gpxOf(wpt('Spring A', pump) + wpt('Spring B', tank) + wpt('Tank', tank)));
    expect(suggestChoices(empty, preview).points.map(({ item }) => item)).toEqual(['item-1', 'item-3']);
    expect(suggestChoices(samplePlan, preview).points.map(({ item }) => item)).toEqual(['item-3']);
    const both = choicesOf({ points: ['item-1', 'item-2'].map((item) => ({ item, role: 'source' as const })) });
    expect(problemsOf(empty, preview, both)).toMatchObject([{ code: 'second-of-role', found: 'another source' }]);
    expect(problemsOf(samplePlan, preview, both)).toHaveLength(2);
  });

  it('refuses an item that is unknown, taken twice, of the other kind, or broken', () => {
    const preview = previewOf(gpxOf(`${wpt('A', tank)}<wpt lat="x" lon="1"/>${rte('R', [pump, tank])}`));
    const asTank = (...items: string[]) =>
      choicesOf({ points: items.map((item) => ({ item, role: 'tank' as const })) });
    const codes = (choices: ImportChoices) => problemsOf(empty, preview, choices).map(({ code }) => code);
    expect(codes(asTank('item-9'))).toEqual(['unknown-reference']);
    expect(codes(asTank('item-1', 'item-1'))).toEqual(['unknown-reference']);
    expect(codes(asTank('item-3'))).toEqual(['wrong-type']);
    expect(codes(asTank('item-2'))).toEqual(['not-a-number']);
    expect(codes(asTank('item-1'))).toEqual([]);
  });

  it('refuses more points than a saved plan may hold', () => {
    const many = Array.from({ length: 5000 }, (_, k) => wpt(`Tank ${k}`, { lon: k / 1e5, lat: 1 }));
    const preview = previewOf(gpxOf(many.join('')));
    expect(problemsOf(samplePlan, preview, suggestChoices(samplePlan, preview))).toMatchObject([{ code: 'too-many' }]);
  });

  it('drops vertices within the tolerance and says how many', () => {
    const middle = Array.from({ length: 9 }, (_, k) => {
      const straight = destination(pump, { distance: 50 * (k + 1), azimuth: 90 });
      return destination(straight, { distance: k % 2 === 0 ? 0.4 : 0, azimuth: 0 });
    });
    const end = destination(pump, { distance: 500, azimuth: 90 });
    const preview = previewOf(gpxOf(wpt('Ram', pump) + wpt('Tank', end) + rte('Delivery', [pump, ...middle, end])));
    const within = (tolerance: number) => {
      const { lines } = imported(empty, preview, { ...suggestChoices(empty, preview), tolerance });
      return lines.map(({ vertices, dropped }) => [vertices, dropped]);
    };
    expect(within(0)).toEqual([[11, 0]]);
    expect(within(0.3)).not.toEqual([[2, 9]]);
    expect(within(0.5)).toEqual([[2, 9]]);
    expect(distanceBetween(pump, end)).toBeCloseTo(500, 6);
  });
});
