import { effect } from '@preact/signals';
import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import type { Standing } from '../../evaluation/mending/changes-for.ts';
import { MENDING_DRAWS, type Remedy, remedyOf } from '../../evaluation/mending/mend.ts';
import type { Evaluation, Finding } from '../../evaluation/result/evaluation.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import { finishEdit } from '../../plan/edits/finish-edit.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { changeWords } from '../../report/findings/change-words.ts';
import { GroundCache } from '../client/ground-cache.ts';
import type { OpenedTerrain } from '../client/terrain-client.ts';
import { pointedRemedy, remedies, remedyKey } from '../state/remedy-store.ts';
import { dragged, evaluation, grounded, history, terrain } from '../state/store.ts';
import { editOrSay } from './edit-actions.ts';

/** Rest after the last new answer before remedies are looked for: they come after the answer and never delay it, ms. */
const REST = 350;

/** The deciding finding first, then what fails, then what stops it perhaps. */
function asked({ answer, findings }: Evaluation): readonly Finding[] {
  const first = [answer.runs.because, answer.arrives.because].filter((f) => f !== null);
  const open = findings.filter((f) => f.verdict === 'fails' || (f.verdict === 'measure' && f.bears === 'running'));
  const keys = new Set<string>();
  return [...first, ...open].filter((f) => !keys.has(remedyKey(f)) && keys.add(remedyKey(f)));
}

/** Lets the page have its turn between two changes that are tried. */
const turn = () => new Promise<void>((done) => setTimeout(done));

async function search(at: Standing, opened: OpenedTerrain, stop: AbortSignal): Promise<void> {
  const cache = new GroundCache();
  const groundFor = async (plan: Plan) => {
    await turn();
    stop.throwIfAborted();
    await cache.fetch(plan, opened, stop);
    const known = cache.known(plan);
    if (known === null) throw new Error('found no ground for a moved plan, expected that of the open file');
    return { ...known, accuracy: accuracyFor(plan, opened.about) };
  };
  // In the worker: many changes are tried, and each is the work of an answer.
  const judge = async (plan: Plan, ground: Ground) => {
    stop.throwIfAborted();
    return opened.reckon(plan, ground, stop, MENDING_DRAWS);
  };
  const open = asked(at.evaluation);
  const found = new Map<string, Remedy | null>();
  for (const [index, finding] of open.entries()) {
    await turn();
    if (stop.aborted) return;
    found.set(remedyKey(finding), await remedyOf(at, finding, groundFor, judge));
    if (stop.aborted) return;
    remedies.value = { of: at.evaluation, found: new Map(found), left: open.length - index - 1 };
  }
}

/** Looks for remedies whenever an answer has come to rest; the next edit ends the search. */
export function followRemedies(): () => void {
  let stop: AbortController | null = null;
  let looked: Plan | null = null;
  const stopEffect = effect(() => {
    const [known, result, opened, busy] = [grounded.value, evaluation.value, terrain.value, dragged.value !== null];
    stop?.abort();
    // Looked at without being followed: what is found must not begin the search anew.
    if (remedies.peek() !== null && remedies.peek()?.of !== result) {
      remedies.value = null;
      pointedRemedy.value = null;
    }
    if (known === null || result === null || opened === null || busy) return;
    const found = remedies.peek();
    if (found !== null && found.of === result && found.left === 0 && looked !== null) {
      // Another name asks nothing anew; the remedies take it over.
      const from = looked;
      const carried = [...found.found].map(
        ([key, remedy]) => [key, remedy && withNamesOf(remedy, from, known.plan)] as const,
      );
      remedies.value = { ...found, found: new Map(carried) };
      looked = known.plan;
      return;
    }
    looked = known.plan;
    const mine = new AbortController();
    stop = mine;
    const ground = { ...known.ground, accuracy: accuracyFor(known.plan, opened.about) };
    setTimeout(() => {
      if (mine.signal.aborted) return;
      search({ plan: known.plan, ground, evaluation: result }, opened, mine.signal).catch((error: unknown) => {
        // A search that was overtaken ends in whatever it was doing; any other fault is a fault of the program.
        if (!mine.signal.aborted) throw error;
      });
    }, REST);
  });
  return () => {
    stop?.abort();
    stopEffect();
  };
}

/** A remedy for a plan that differs from the one it was found for in what nothing rests on. */
function withNamesOf(remedy: Remedy, from: Plan, now: Plan): Remedy {
  const parts = <Part extends { readonly id: string; readonly name: string; readonly note: string }>(
    mended: readonly Part[],
    before: readonly Part[],
    after: readonly Part[],
  ) =>
    mended.map((part) => {
      const at = before.findIndex(({ id }) => id === part.id);
      const renamed = after[at];
      if (renamed === undefined) return part;
      return part === before[at] ? renamed : { ...part, name: renamed.name, note: renamed.note };
    });
  const { plan } = remedy.after;
  const kept = Object.fromEntries(
    Object.entries(plan).map(([key, value]) => [key, value === Reflect.get(from, key) ? Reflect.get(now, key) : value]),
  );
  const carried: Plan = {
    ...plan,
    ...kept,
    points: parts(plan.points, from.points, now.points),
    routes: parts(plan.routes, from.routes, now.routes),
  };
  return { ...remedy, after: { ...remedy.after, plan: carried } };
}

/** Lays a remedy that is pointed at over map and profile; null takes it away. */
export function pointAtRemedy(remedy: Remedy | null): void {
  pointedRemedy.value = remedy;
}

/** Takes a remedy as one step of the plan. */
export function takeRemedy(remedy: Remedy): void {
  pointedRemedy.value = null;
  const { units } = history.value.present;
  const name = remedy.changes.map((each) => changeWords(each, remedy.after.plan, units)).join('; ');
  editOrSay((plan) => finishEdit(plan, remedy.after.plan, { code: 'take-remedy', name }));
}
