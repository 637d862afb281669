import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import type { FigureNode } from '../../../src/report/figure/figure-node.ts';
import { findingWords } from '../../../src/report/findings/finding-words.ts';
import { engineerAppendix } from '../../../src/report/print/engineer-appendix.ts';
import { htmlPage, htmlText } from '../../../src/report/print/html-text.ts';
import { ownerReport } from '../../../src/report/print/owner-report.ts';
import type { PrintSource } from '../../../src/report/print/print-source.ts';
import { visitSheet } from '../../../src/report/print/visit-sheet.ts';
import { yearFigure } from '../../../src/report/tables/year-figure.ts';
import { nameOf } from '../../../src/report/words/measure-words.ts';
import { planMade } from '../plan-made.ts';
import { all, byClass, demoPlan, demoSource, sourceOf, wordsOf } from './print-made.ts';

const SHEETS = { owner: ownerReport, engineer: engineerAppendix, visit: visitSheet } as const;
const KINDS = ['owner', 'engineer', 'visit'] as const;
/** Those that list every point and line. */
const LISTED = ['engineer', 'visit'] as const;

/** Every month a little different, so that the year is printed too. */
function withYear(plan: Plan): Plan {
  const year = Array.from({ length: 12 }, (_, m) => ({
    season: m > 3 && m < 9 ? ('summer' as const) : ('winter' as const),
    airTemperature: null,
    sourceShare: 1 - m * 0.06,
  }));
  return { ...plan, year };
}

const HOSTILE = '<script>alert("x")</script> & <img src=x onerror=alert(1)>';

function withHostileNames(plan: Plan): Plan {
  return {
    ...plan,
    name: HOSTILE,
    points: plan.points.map((point) => ({ ...point, name: `${point.id} ${HOSTILE}`, note: HOSTILE })),
    routes: plan.routes.map((route) => ({ ...route, name: `${route.id} ${HOSTILE}`, note: HOSTILE })),
  };
}

describe('the printed sheets of the demo', () => {
  let source: PrintSource;
  let sheets: Readonly<Record<(typeof KINDS)[number], FigureNode>>;

  beforeAll(async () => {
    source = await demoSource(withYear);
    sheets = { owner: ownerReport(source), engineer: engineerAppendix(source), visit: visitSheet(source) };
  });

  const evaluation = () => {
    if (source.site === null) throw new Error('the demo has ground, found none');
    return source.site.evaluation;
  };

  it('tells the engineer of every finding that fails or must be measured, with its remedy', () => {
    const open = evaluation().findings.filter(({ verdict }) => verdict !== 'holds');
    expect(open.length).toBeGreaterThan(0);
    const told = all(sheets.engineer, byClass('finding'));
    expect(told).toHaveLength(open.length);
    for (const finding of open) {
      const block = told.find(
        ({ attributes }) => attributes['data-code'] === finding.code && attributes['data-about'] === finding.about,
      );
      const { remedy, sentence } = findingWords(finding, { units: 'metric', nameOf: (id) => nameOf(source.plan, id) });
      expect(block === undefined ? '' : wordsOf(block)).toContain(sentence);
      expect(block === undefined ? '' : wordsOf(block)).toContain(remedy);
    }
  });

  it('puts what fails before what must be measured', () => {
    const order = all(sheets.engineer, byClass('finding')).map((block) => wordsOf(block).includes('fails'));
    expect(order).toEqual([...order].sort((a, b) => Number(b) - Number(a)));
  });

  it('leaves room to write every reading, in the order of worth', () => {
    const items = all(sheets.visit, byClass('measure-item'));
    const asked = evaluation().measureFirst.map(({ quantity, about }) => `${quantity} ${about}`);
    expect(items.map(({ attributes: a }) => `${a['data-quantity']} ${a['data-about']}`)).toEqual(asked);
    for (const item of items) expect(all(item, byClass('blank-line')).length).toBeGreaterThanOrEqual(3);
  });

  it('asks for as many timings of the source as the handbook does', () => {
    const item = all(sheets.visit, ({ attributes }) => attributes['data-quantity'] === 'source-yield')[0];
    const times =
      item === undefined ? [] : all(item, byClass('blank-name')).filter((node) => /^Time/.test(wordsOf(node)));
    // At least three: Spring measurement procedure C.3, Colorado Division of Reclamation, Mining and Safety.
    expect(times.length).toBeGreaterThanOrEqual(3);
  });

  it.each(KINDS)('carries the cautions that the documents name: %s', (kind) => {
    const text = readFileSync(fileURLToPath(new URL('../../../docs/cautions.md', import.meta.url)), 'utf8');
    const titles = [...text.matchAll(/^- \*\*(.+?)\.\*\*/gm)].map(([, title]) => title ?? '');
    const words = wordsOf(sheets[kind]);
    // Steep ground is a bullet that begins in bold without a full stop.
    expect(titles.length).toBeGreaterThanOrEqual(8);
    for (const title of [...titles, 'Steep and wet ground']) expect(words).toContain(title);
    expect(words).toContain('Local codes and licensed practice decide');
  });

  it.each(LISTED)('gives every point in degrees and in degrees and minutes: %s', (kind) => {
    const words = wordsOf(sheets[kind]);
    for (const { name, position } of source.plan.points) {
      expect(words).toContain(name);
      expect(words).toContain(Math.abs(position.lat).toFixed(6));
      expect(words).toContain(Math.abs(position.lon).toFixed(6));
    }
  });

  it.each(KINDS)('holds no number that is none and no word of the program: %s', (kind) => {
    expect(htmlText(sheets[kind])).not.toMatch(/NaN|undefined|\bnull\b|Infinity|\[object/);
  });

  it.each(KINDS)('says which program made it, and when: %s', (kind) => {
    expect(wordsOf(sheets[kind])).toContain('Rillwright 9.8.7');
    expect(wordsOf(sheets[kind])).toContain('2026-05-31');
  });

  it('owns with how many published rams the pump was compared, with the band that the efficiency comes from', () => {
    expect(wordsOf(sheets.engineer)).toContain('compared with seven published rams');
  });

  it('shows twelve months of every tank that has a line', () => {
    const tanks = evaluation().tanks.filter(({ line }) => line !== null);
    expect(all(sheets.engineer, byClass('month'))).toHaveLength(12 * tanks.length);
  });

  it('prints a profile for every whole way and one on the sheet for the visit', () => {
    expect(all(sheets.engineer, byClass('profile-figure'))).toHaveLength(4);
    expect(all(sheets.owner, byClass('profile-figure'))).toHaveLength(1);
    expect(all(sheets.visit, byClass('profile-figure'))).toHaveLength(1);
  });

  it.each(KINDS)('gives no two elements the same id: %s', (kind) => {
    const ids = all(sheets[kind], ({ attributes }) => attributes.id !== undefined).map(
      ({ attributes }) => attributes.id,
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each(KINDS)('heads every table, and gives each row as many cells as the head: %s', (kind) => {
    const tables = all(sheets[kind], ({ tag }) => tag === 'table');
    expect(tables.length).toBeGreaterThanOrEqual(1);
    for (const table of tables) {
      const [head, ...rows] = all(table, ({ tag }) => tag === 'tr').map(({ children }) => children.length);
      expect(all(table, ({ tag }) => tag === 'thead')).toHaveLength(1);
      expect(new Set(rows)).toEqual(new Set([head]));
    }
  });

  it.each(LISTED)('shows feet where feet are asked for, and no metres but beside them: %s', (kind) => {
    const us = SHEETS[kind]({ ...source, units: 'us' });
    const cells = all(us, byClass('points'))
      .flatMap((table) => all(table, ({ tag }) => tag === 'td'))
      .map(wordsOf);
    expect(cells.some((cell) => /\d\u202fft$/.test(cell))).toBe(true);
    expect(cells.some((cell) => /\d\u202fm$/.test(cell))).toBe(false);
  });
});

describe('names from files on a printed sheet', () => {
  it.each(KINDS)('never become markup: %s', async (kind) => {
    const source = await demoSource(withHostileNames);
    const page = htmlPage(SHEETS[kind](source), { title: HOSTILE, style: 'p { color: red }</style><script>' });
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.replace(/<style>[\s\S]*<\/style>/, '')).not.toMatch(/<script|<img/);
    expect(page).toContain('&lt;script&gt;');
  });
});

describe('an unfinished plan', () => {
  const unfinished: readonly (readonly [string, Plan])[] = [
    ['nothing drawn', emptyPlan({ name: 'Nothing yet', units: 'us' })],
    ['a source alone', planMade(['source'])],
    ['points without lines', planMade(['source', 'standpipe', 'pump', 'tank'])],
    ['the demo without its elevation file', demoPlan()],
  ];

  it.each(unfinished.flatMap(([words, plan]) => KINDS.map((kind) => [words, kind, plan] as const)))(
    'prints without empty parts: %s, %s',
    (_, kind, plan) => {
      const sheet = SHEETS[kind](sourceOf(plan));
      expect(htmlText(sheet)).not.toMatch(/NaN|undefined|\bnull\b|Infinity|\[object/);
      expect(wordsOf(sheet)).toContain('Pressure and water hammer');
      for (const part of all(sheet, byClass('part'))) expect(part.children.length).toBeGreaterThan(1);
      expect(all(sheet, ({ tag }) => tag === 'svg')).toHaveLength(plan.points.length > 0 ? 1 : 0);
    },
  );
});

describe('page one of a plan with a kept tank', () => {
  const keep = (plan: Plan): Plan => ({
    ...plan,
    points: plan.points.map((point) =>
      point.role === 'tank' ? { ...point, standing: point.id === 'tank-shoulder' ? 'kept' : 'set-aside' } : point,
    ),
  });

  it('speaks of that tank alone and leaves the others to the appendix', async () => {
    const report = ownerReport(await demoSource(keep));
    const first = all(report, byClass('page-one'))[0];
    const appendix = engineerAppendix(await demoSource(keep));
    const steps = first === undefined ? [] : all(first, ({ tag }) => tag === 'ol');
    expect(steps.map(wordsOf).join(' ')).not.toContain('Tank behind the knoll');
    expect(first === undefined ? '' : wordsOf(first)).toContain('Arrives at Shoulder tank a day');
    // What is set aside is in the tables and on the map; nothing is found of it any more.
    expect(all(appendix, byClass('finding')).map(wordsOf).join(' ')).not.toContain('Tank behind the knoll');
    expect(wordsOf(appendix)).toContain('Tank behind the knoll');
  });
});

describe('the small bars of the year', () => {
  it.each(['metric', 'us'] as const)('are as high as the axis says, in %s units', (units) => {
    const month = { needPerDay: 1.2, overflow: 0, shortfall: 0, daysShort: 0, lowest: 1 };
    const months = [0.5, 1, 2].map((deliveryPerDay) => ({ ...month, deliveryPerDay }));
    const figure = yearFigure(months, { units, size: { width: 600, height: 180 }, title: 'Year' });
    const drawn = figure === null ? [] : all(figure, byClass('month'));
    const bars = drawn
      .flatMap((month) => all(month, byClass('arrives')))
      .map(({ attributes }) => Number(attributes.height));
    const ticks = figure === null ? [] : all(figure, byClass('tick'));
    const axis = ticks.map((tick) => {
      const says = Number(wordsOf(tick).replace(/[^\d.]/g, '')) * (units === 'us' ? 0.003785411784 : 0.001);
      return { says, y: Number(all(tick, ({ tag }) => tag === 'line')[0]?.attributes.y1) };
    });
    const [foot, next] = axis;
    // A US gallon is 231 cubic inches, 3.785411784 L: NIST Special Publication 811, appendix B.
    const perVolume = ((foot?.y ?? 0) - (next?.y ?? 0)) / ((next?.says ?? 0) - (foot?.says ?? 0));
    expect(bars[0]).toBeCloseTo(0.5 * perVolume, 0);
    expect(bars[2]).toBeCloseTo(2 * perVolume, 0);
  });
});
