import { likelyGround } from '../../evaluation/evaluate/likely-ground.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { GroundCache } from '../client/ground-cache.ts';
import type { GroundedPlan } from '../client/ground-feed.ts';
import type { OpenedTerrain } from '../client/terrain-client.ts';
import { dragged, grounded, terrain } from '../state/store.ts';
import {
  comparedWith,
  comparing,
  comparison,
  differences,
  laidOver,
  otherSheet,
  type ReckonedSheet,
} from './comparison.ts';

let stop = new AbortController();
let known: { readonly terrain: OpenedTerrain; readonly cache: GroundCache; last: ReckonedSheet | null } | null = null;

export function compareWith(sheet: string): void {
  comparedWith.value = sheet;
}

/** Reckons the other plan while two are looked at side by side; an answer that is still true is not asked for again. */
export function followComparison(): void {
  const opened = terrain.value;
  const sheet = otherSheet.value;
  const wanted = comparing.value;
  stop.abort();
  if (!wanted || sheet === null || opened === null) {
    comparison.value = { kind: 'none' };
    return;
  }
  if (known?.terrain !== opened) known = { terrain: opened, cache: new GroundCache(), last: null };
  const plan = sheet.history.present;
  const { last } = known;
  if (last?.sheet === sheet.id && last.grounded.plan === plan) {
    comparison.value = { kind: 'known', other: last };
    return;
  }
  stop = new AbortController();
  comparison.value = { kind: 'reckoning', step: 'ground' };
  void reckonOther(known, { sheet: sheet.id, plan }, stop.signal);
}

/** Leaves the other plan unreckoned until it is asked for again. */
export function stopComparison(): void {
  stop.abort();
  comparison.value = { kind: 'stopped' };
}

async function reckonOther(
  on: NonNullable<typeof known>,
  { sheet, plan }: { readonly sheet: string; readonly plan: Plan },
  signal: AbortSignal,
): Promise<void> {
  try {
    await on.cache.fetch(plan, on.terrain, signal);
    const read = on.cache.known(plan);
    if (read === null) throw new Error('the terrain gave no ground for the other plan');
    if (signal.aborted) return;
    comparison.value = { kind: 'reckoning', step: 'numbers' };
    const accuracy = accuracyFor(plan, on.terrain.about);
    const ground = likelyGround(plan, read, accuracy);
    const evaluation = await on.terrain.reckon(plan, { ...ground, accuracy }, signal);
    if (signal.aborted) return;
    on.last = { sheet, grounded: { plan, ground }, evaluation };
    comparison.value = { kind: 'known', other: on.last };
  } catch (error) {
    if (signal.aborted) return;
    comparison.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
  }
}

let stopDraws = new AbortController();

/** Draws both plans together once both are reckoned; the next change of either ends it. */
export function followDifferences(): void {
  const other = laidOver.value;
  const [opened, shown, busy] = [terrain.value, grounded.value, dragged.value !== null];
  stopDraws.abort();
  if (other === null || opened === null || shown === null || busy) return;
  const [here, there] = [shown.plan, other.grounded.plan];
  const known = differences.peek();
  if (known?.here === here && known.there === there) return;
  stopDraws = new AbortController();
  const { signal } = stopDraws;
  const side = ({ plan, ground }: GroundedPlan) => ({
    plan,
    ground: { ...ground, accuracy: accuracyFor(plan, opened.about) },
  });
  opened.compare({ one: side(shown), other: side(other.grounded) }, signal).then(
    (drawn) => {
      if (!signal.aborted) differences.value = { here, there, drawn };
    },
    (error: unknown) => {
      if (!signal.aborted) comparison.value = { kind: 'failed', reason: String(error) };
    },
  );
}
