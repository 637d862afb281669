import type { Plan } from '../../plan/model/plan.ts';
import type { Ratio } from '../../units/quantity.ts';
import { evaluateDrawn, type Ground } from '../evaluate/evaluate.ts';
import type { Evaluation, Finding } from '../result/evaluation.ts';
import type { DrawOrder } from '../spread/samples.ts';
import type { Verdict } from '../statistics/estimate.ts';
import type { Change } from './change.ts';
import { changesFor, type Standing } from './changes-for.ts';

/** Draws by which changes are judged: enough to tell what holds from what does not, few enough to try many. */
export const MENDING_DRAWS: DrawOrder = { count: 512, seed: 1 };

/** Steps that one finding is bettered in, at the most. */
const MOST_TRIES = 3;

/** Changes taken one after the other at the most. */
const MOST_STEPS = 16;

/** Changes of a finding that are tried as the first of a pair, and as its second. */
const FIRST_IN_PAIRS = 8;
const SECOND_IN_PAIRS = 3;

/** The ground of a plan whose points or lines were moved. */
export type GroundFor = (plan: Plan) => Promise<Ground>;

/** Answers a changed plan on its ground, wherever that is reckoned. */
export type Judge = (plan: Plan, ground: Ground) => Promise<Evaluation>;

const judgeHere: Judge = (plan, ground) => Promise.resolve(evaluateDrawn(plan, ground, MENDING_DRAWS));

/** How the ground of a changed plan is got, and how it is judged. */
interface Asking {
  readonly groundFor: GroundFor;
  readonly judge: Judge;
}

/** A change that was found to mend a finding on the whole plan: what it mends, and the answer after it. */
export interface Remedy {
  readonly finding: Finding;
  /** One change, or the shortest pair where no single one does it. */
  readonly changes: readonly Change[];
  readonly after: Standing;
}

/** Why a finding was left: another place is needed, something must be measured, or every change breaks something else. */
export type LeftBecause = 'another-place' | 'to-be-measured' | 'breaks-another';

export interface Mended {
  readonly standing: Standing;
  readonly steps: readonly Remedy[];
  readonly left: readonly { readonly finding: Finding; readonly because: LeftBecause }[];
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, measure: 1, fails: 2 };

const keyOf = ({ code, about }: Finding) => `${code} ${about}`;

/** Findings that look at one thing from its two ends, so that one may turn into the other. */
const familyOf = ({ code }: Finding) => code.replace(/-(least|most)$/, '');

/** Chance by which a running plan may become less sure without being called worse: rounding of draws. */
const ROUNDING = 0.02;

/** Whether less arrives than before. */
const bringsLess = (before: Evaluation, after: Evaluation) =>
  (after.answer.arrives.perDay?.likely ?? 0) < 0.98 * (before.answer.arrives.perDay?.likely ?? 0);

/** Findings that a change breaks: those that held and fail, or that stop it or hurt somebody only perhaps. */
function broken(before: Evaluation, after: Evaluation, mended: Finding): Finding[] {
  const was = new Map(before.findings.map((f) => [keyOf(f), RANK[f.verdict]]));
  return after.findings.filter((finding) => {
    if (finding.verdict === 'holds' || keyOf(finding) === keyOf(mended)) return false;
    // A pump that stood brought nothing: that it now brings too little breaks nothing.
    if (finding.bears === 'yield' && !bringsLess(before, after)) return false;
    if (RANK[finding.verdict] <= (was.get(keyOf(finding)) ?? 0)) return false;
    return finding.verdict === 'fails' || finding.bears === 'running' || finding.bears === 'safety';
  });
}

/** Whether it is as sure to run as before. */
const asSure = (before: Evaluation, after: Evaluation) =>
  (after.answer.runs.chance ?? 0) >= (before.answer.runs.chance ?? 0) - ROUNDING;

/** Whether nothing that held is broken, and it is as sure to run. */
const breaksNothing = (before: Evaluation, after: Evaluation, mended: Finding) =>
  broken(before, after, mended).length === 0 && asSure(before, after);

/** What is left of a finding once a change is made: the worst of its kind about the same thing. */
function restOf(after: Evaluation, mended: Finding): number {
  return after.findings.reduce((worst, finding) => {
    const same = familyOf(finding) === familyOf(mended) && finding.about === mended.about;
    return same ? Math.max(worst, RANK[finding.verdict]) : worst;
  }, 0);
}

/** By what share of its limit a finding is missed at the likely value; 0 where it is met or gone. */
function missOf(after: Evaluation, mended: Finding): number {
  const now = after.findings.find((finding) => keyOf(finding) === keyOf(mended));
  if (now === undefined || now.value === null || now.limit === null) return 0;
  const miss = now.side === 'at-least' ? now.limit - now.value.likely : now.value.likely - now.limit;
  return Math.max(0, miss) / Math.max(Math.abs(now.limit), Number.MIN_VALUE);
}

/** A change that takes away this share of what is missed is a step on the way. */
const STEP_ON: Ratio = 0.25;

/** Whether a plan brings more than before, where that is what was wanted. */
const bringsMore = (before: Evaluation, after: Evaluation) =>
  (after.answer.arrives.perDay?.likely ?? 0) > 1.05 * (before.answer.arrives.perDay?.likely ?? 0);

async function judged(change: Change, at: Standing, { groundFor, judge }: Asking): Promise<Standing> {
  const ground = change.moves ? await groundFor(change.plan) : at.ground;
  const plan = change.fit?.(ground) ?? change.plan;
  return { plan, ground, evaluation: await judge(plan, ground) };
}

/** How well a change does: 2 where the finding holds then, 1 where it is better, 0 where it does not help or breaks another. */
function helps(at: Standing, after: Standing, finding: Finding): 0 | 1 | 2 {
  if (!breaksNothing(at.evaluation, after.evaluation, finding)) return 0;
  const rest = restOf(after.evaluation, finding);
  if (rest === 0) return 2;
  if (rest < RANK[finding.verdict]) return 1;
  const [missed, misses] = [missOf(at.evaluation, finding), missOf(after.evaluation, finding)];
  if (missed > 0 && misses <= missed * (1 - STEP_ON)) return 1;
  return finding.code === 'need-unmet' && bringsMore(at.evaluation, after.evaluation) ? 1 : 0;
}

/**
 * The remedy of a finding, searched on the whole plan: the change with the least trouble after which the finding holds and nothing
 * that held is broken; where there is none, a pair of changes; else one after which it is at least better.
 */
export async function remedyOf(
  at: Standing,
  finding: Finding,
  groundFor: GroundFor,
  judge: Judge = judgeHere,
): Promise<Remedy | null> {
  const asking = { groundFor, judge };
  let better: Remedy | null = null;
  const tried: Tried[] = [];
  for (const change of changesFor(at, finding)) {
    const after = await judged(change, at, asking);
    const help = helps(at, after, finding);
    if (help === 2) return { finding, changes: [change], after };
    if (help === 1) better ??= { finding, changes: [change], after };
    tried.push({ change, after });
  }
  return (await pairFor(at, finding, { tried, asking })) ?? better ?? leastEvil(at, finding, tried);
}

/**
 * What lets a pump run although it breaks a rule of good practice: rules contradict each other for some sizes. Of those the one that
 * breaks fewest; null where what it breaks is more than practice.
 */
function leastEvil(at: Standing, finding: Finding, tried: readonly Tried[]): Remedy | null {
  if (finding.bears !== 'running') return null;
  const found = tried.flatMap(({ change, after }) => {
    const cost = broken(at.evaluation, after.evaluation, finding);
    const only = cost.every(({ bears }) => bears === 'practice');
    const runs = restOf(after.evaluation, finding) === 0 && asSure(at.evaluation, after.evaluation);
    return only && runs ? [{ remedy: { finding, changes: [change], after }, cost: cost.length }] : [];
  });
  return found.toSorted((a, b) => a.cost - b.cost)[0]?.remedy ?? null;
}

interface Tried {
  readonly change: Change;
  readonly after: Standing;
}

/** A second change that mends what the first one breaks. */
async function pairFor(
  at: Standing,
  finding: Finding,
  { tried, asking }: { readonly tried: readonly Tried[]; readonly asking: Asking },
): Promise<Remedy | null> {
  for (const { change, after } of tried.slice(0, FIRST_IN_PAIRS)) {
    if (restOf(after.evaluation, finding) >= RANK[finding.verdict]) continue;
    for (const other of broken(at.evaluation, after.evaluation, finding)) {
      for (const second of changesFor(after, other).slice(0, SECOND_IN_PAIRS)) {
        const both = await judged(second, after, asking);
        if (helps(at, both, finding) === 2) return { finding, changes: [change, second], after: both };
      }
    }
  }
  return null;
}

/** Tanks and lines that the answer is not about: candidates beside it are not mended for their own sake. */
function aside({ plan, evaluation }: Standing): ReadonlySet<string> {
  const chosen = evaluation.answer.arrives.about;
  const others = plan.points.filter((p) => p.role === 'tank' && p.standing !== 'kept' && p.id !== chosen);
  const ids = new Set(chosen === null ? [] : others.map(({ id }) => id));
  const lines = plan.routes.filter((r) => ids.has(r.to) || ids.has(r.from));
  const fed = lines.filter((r) => r.role === 'gravity').map((r) => r.to);
  return new Set([...ids, ...lines.map(({ id }) => id), ...fed]);
}

/** Findings to be mended: what fails, and what runs only perhaps. */
function asked(standing: Standing): Finding[] {
  const others = aside(standing);
  return standing.evaluation.findings.filter(
    ({ verdict, bears, about }) =>
      !others.has(about) && (verdict === 'fails' || (verdict === 'measure' && bears === 'running')),
  );
}

/**
 * A plan with its remedies taken one after the other, each judged on the whole plan, until nothing fails or no change of these
 * kinds helps. Deterministic: the same plan on the same ground is mended the same way.
 */
export async function mend(
  start: { readonly plan: Plan; readonly ground: Ground },
  groundFor: GroundFor,
  signal?: AbortSignal,
): Promise<Mended> {
  let standing: Standing = { ...start, evaluation: evaluateDrawn(start.plan, start.ground, MENDING_DRAWS) };
  const steps: Remedy[] = [];
  const given = new Set<string>();
  const tries = new Map<string, number>();
  while (steps.length < MOST_STEPS) {
    signal?.throwIfAborted();
    const open = asked(standing).filter((f) => !given.has(keyOf(f)));
    const [first] = open;
    if (first === undefined) break;
    const remedy = await remedyOf(standing, first, groundFor);
    if (remedy === null) {
      given.add(keyOf(first));
      continue;
    }
    // What a change only betters is asked for a few times more.
    const times = (tries.get(keyOf(first)) ?? 0) + 1;
    tries.set(keyOf(first), times);
    if (restOf(remedy.after.evaluation, first) > 0 && times >= MOST_TRIES) given.add(keyOf(first));
    steps.push(remedy);
    // On the changed plan more may be possible than before.
    for (const key of given) if ((tries.get(key) ?? 0) < MOST_TRIES) given.delete(key);
    standing = remedy.after;
  }
  const open = asked(standing);
  // Each may hold by itself and not all of them together.
  const { because } = standing.evaluation.answer.runs;
  const told = open.length === 0 && because !== null ? [because] : open;
  const left = told.map((finding) => ({ finding, because: whyLeft(standing, finding) }));
  return { standing, steps, left };
}

function whyLeft(standing: Standing, finding: Finding): LeftBecause {
  if (finding.verdict !== 'fails') return 'to-be-measured';
  return changesFor(standing, finding).length === 0 ? 'another-place' : 'breaks-another';
}
