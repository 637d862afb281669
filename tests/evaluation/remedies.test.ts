import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { FindingCode } from '../../src/evaluation/findings/catalogue.ts';
import type { Finding } from '../../src/evaluation/result/evaluation.ts';
import type { Plan, PlanPoint } from '../../src/plan/model/plan.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';
import type { UnitSystem } from '../../src/units/kind.ts';
import { anyCase, anyPlanOf } from './any-plans.ts';
import { CASES, type Case, findings, herdOf, hill, lineIn, shelf } from './finding-cases.ts';
import { madeGround } from './made-ground.ts';
import { sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

type Fact = (name: string) => number;

const planOf = (made: Case): Plan => made.plan ?? workingPlan;

/** The same case with some of its heights moved. */
const moved = (made: Case, by: Readonly<Record<string, number>>): Case => ({
  ...made,
  heights: {
    ...made.heights,
    ...Object.fromEntries(
      Object.entries(by).map(([id, d]) => [
        id,
        (made.heights?.[id] ?? workingHeights[id as keyof typeof workingHeights]) + d,
      ]),
    ),
  },
});

const long = (made: Case, lengths: Readonly<Record<string, number>>): Case => ({
  ...made,
  lengths: { ...made.lengths, ...lengths },
});

/** The drive pipe along the ground, from whatever feeds it. */
const laid = (made: Case, slope: number): Case => {
  const heights = { ...workingHeights, ...made.heights };
  const from =
    planOf(made).routes.find(({ role }) => role === 'drive')?.from === 'spring' ? heights.spring : heights.standpipe;
  return long(made, { drive: Math.sqrt(slope ** 2 - ((from ?? 0) - (heights.ram ?? 0)) ** 2) });
};

const changed = (made: Case, id: string, change: (point: PlanPoint) => PlanPoint): Case => ({
  ...made,
  plan: { ...planOf(made), points: planOf(made).points.map((p) => (p.id === id ? change(p) : p)) },
});

const volume = (made: Case, id: string, holds: number): Case =>
  changed(made, id, (p) => (p.role === 'tank' || p.role === 'trough' ? { ...p, volume: holds } : p));

const withSheet = (made: Case, intakeLeast: number): Case => ({
  ...made,
  plan: { ...planOf(made), pump: { ...sheet, intakeLeast } },
});

const ram = (made: Case, change: (weight: number) => { valveWeightHead?: number; checkLag?: number }): Case => {
  const { pump, ...rest } = planOf(made);
  if (pump?.kind !== 'ram') throw new Error('found no ram, expected one by its parts');
  return { ...made, plan: { ...rest, pump: { ...pump, ...change(pump.valveWeightHead ?? 0) } } };
};

const bore = (made: Case, line: string, wide: number): Case => ({
  ...made,
  plan: lineIn(line, { rating: 16e5, bore: wide }, planOf(made)),
});

/** What somebody does who takes a remedy at its word. One that the model does not know (a relief valve) is left out. */
const TAKEN: Readonly<Partial<Record<FindingCode, (made: Case, fact: Fact) => Case>>> = {
  'fall-small': (made, fact) => moved(made, { ram: -fact('by') }),
  'source-short': (made, fact) => withSheet(made, fact('most')),
  'supply-short': (made, fact) => moved(made, { standpipe: -fact('lower') }),
  'supply-air': (made, fact) => ({ ...made, bumps: { supply: hill(104.5, 103.4, 105.2 - fact('by')) } }),
  'supply-bore': (made, fact) => bore(made, 'supply', fact('wider')),
  'standpipe-low': (made, fact) =>
    changed(made, 'standpipe', (p) => (p.role === 'standpipe' ? { ...p, topHeight: p.topHeight + fact('by') } : p)),
  'standpipe-place': (made, fact) => long(made, { drive: fact('at'), supply: 100 - fact('at') }),
  'standpipe-nowhere': (made, fact) => ({ ...made, bumps: { supply: shelf(104.2 - fact('by')) } }),
  'drive-length-bore-least': (made, fact) => laid(made, fact('laid')),
  'drive-length-bore-most': (made, fact) => laid(made, fact('laid')),
  'drive-length-fall-least': (made, fact) => laid(made, fact('laid')),
  'drive-length-fall-most': (made, fact) => laid(made, fact('laid')),
  'back-pressure': (made, fact) => moved(made, { tank: fact('head') }),
  'delivery-head': (made, fact) => moved(made, { tank: fact('raise') }),
  'lift-over-fall': (made, fact) => moved(made, { tank: -fact('lower') }),
  'lift-out-of-reach': (made, fact) => moved(made, { tank: -fact('lower') }),
  'ram-stops': (made, fact) => ram(made, () => ({ checkLag: fact('lag') })),
  'valve-sticks': (made, fact) => ram(made, (weight) => ({ valveWeightHead: weight * (1 - fact('share')) })),
  'valve-stays-shut': (made, fact) => moved(made, { tank: fact('raise') }),
  'beat-slow': (made, fact) => laid(made, fact('laid')),
  'beat-fast': (made, fact) => laid(made, fact('laid')),
  'friction-share': (made, fact) => bore(made, 'delivery', fact('wider')),
  'need-unmet': (made, fact) => ({ ...made, plan: herdOf(5000 - fact('by') * 1000, planOf(made)) }),
  'pipe-pressure': (made, fact) => ({ ...made, plan: lineIn('delivery', { rating: fact('rating') }) }),
  'trough-dry': (made, fact) => moved(made, { trough: -fact('higher') }),
  'storage-short': (made, fact) => volume(made, 'tank', fact('volume')),
  'trough-first-hour': (made, fact) => volume(made, 'trough', fact('volume')),
  'gravity-air': (made, fact) => ({ ...made, bumps: { gravity: hill(123, 118, 126 - fact('by')) } }),
};

/** Rounding of the search for what just holds, and of chances that are counted in draws. */
const NUDGE = 5e-4;

/** A fact of a finding, a hair beyond what just holds, in the direction in which it grows. */
function factOf(finding: Finding): Fact {
  return (name) => {
    const value = finding.facts[name];
    if (typeof value !== 'number') throw new Error(`found no ${name} in ${finding.code}, expected a number`);
    const less = ['most', 'lag'].includes(name) || (name === 'laid' && /most|slow/.test(finding.code));
    return value * (less ? 1 - NUDGE : 1 + NUDGE);
  };
}

const FAILING = Object.entries(CASES).flatMap(([code, { fails }]) => {
  const take = TAKEN[code as FindingCode];
  return fails && take ? [[code, fails, take] as const] : [];
});

const OPEN = Object.entries(CASES).flatMap(([code, cases]) =>
  (['measure', 'fails'] as const).flatMap((verdict) => {
    const made = cases[verdict];
    return made ? [[code, verdict, made] as const] : [];
  }),
);

const remedyOf = (finding: Finding, units: UnitSystem) =>
  findingWords(finding, { units, nameOf: (id) => id }).remedy.replace(/\s/g, ' ');

const IMPERATIVE =
  /^(Bury|Walk|Ask|Use|Read|Hold|Stretch|See|Dig|Level|Time|Set|Choose|Lay|Measure|Make|Move|Find|Draw|Stretch|Dig|Put|Lead|Raise|Take|Count|Fit|Ease|Throttle|Change) /;

/** What is done about these has no number: something is chosen, asked or looked at. */
const WITHOUT_NUMBER = new Set([
  'readings-few',
  'line-crosses',
  'pump-unchosen',
  'drive-bent',
  'drive-plastic',
  'pump-bore',
  'waste-valve-low',
  'frost-depth',
  'velocity-high',
]);

/** What is wrong with the way a remedy is said, in either system of units. */
function faultsOf(finding: Finding): string[] {
  return (['metric', 'us'] as const)
    .map((units) => remedyOf(finding, units))
    .filter((remedy) => {
      const numbered =
        /\d|three times/.test(remedy) || remedy.startsWith('Change ') || WITHOUT_NUMBER.has(finding.code);
      const holed = /undefined|NaN|Infinity|‹| {2}| [.,;:]|(?<![\d.])0\.00? m\b/.test(remedy);
      return !numbered || !IMPERATIVE.test(remedy) || holed;
    });
}

/** Remedies without their numbers that a plan is told more than once. */
function saidTwice(all: readonly Finding[]): string[] {
  const said = all
    .filter((f) => f.verdict !== 'holds')
    .map((f) => `${f.code === 'pipe-pressure' ? f.about : ''} ${remedyOf(f, 'metric').replace(/[−±]?[\d.,]+/g, '#')}`);
  return said.filter((each, i) => said.indexOf(each) < i);
}

describe('remedies', () => {
  test.each(FAILING)('whoever does what is said about %s is rid of it', (code, made, take) => {
    const own = (fs: readonly Finding[]) =>
      fs.filter((f) => f.code === code && (made.about === undefined || f.about === made.about));
    const [before] = own(findings(made));
    if (before === undefined) throw new Error(`found no ${code}, expected one`);
    const after = own(findings(take(made, factOf(before))));
    expect(after.map((f) => `${f.verdict} ${f.chance.toFixed(4)}`)).not.toContainEqual(
      expect.stringMatching(/^(measure|fails)/),
    );
  });

  test.each(OPEN)(
    'what to do about %s that comes out as %s is said in the imperative and with its number',
    (code, _, made) => {
      const own = findings(made).filter((f) => f.code === code && f.verdict !== 'holds');
      expect(own.flatMap(faultsOf)).toEqual([]);
    },
  );

  test.each(OPEN)('no two remedies of one plan say the same: %s, %s', (_code, _verdict, made) => {
    expect(saidTwice(findings(made))).toEqual([]);
  });

  test('any plan, finished or not, gets remedies with their numbers, none of them twice', () => {
    fc.assert(
      fc.property(anyCase, (made) => {
        const plan = anyPlanOf(made);
        const lengths = Object.fromEntries(Object.entries(workingLengths).map(([id, m]) => [id, m * made.stretch]));
        const all = evaluate(
          plan,
          madeGround(plan, { heights: made.heights, lengths, accuracy: made.accuracy }),
        ).findings;
        expect(all.filter((f) => f.verdict !== 'holds').flatMap(faultsOf)).toEqual([]);
        expect(saidTwice(all)).toEqual([]);
      }),
      { numRuns: 400, seed: 5 },
    );
  });
});
