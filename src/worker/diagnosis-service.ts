import { type Diagnosis, diagnose, drawsFor } from '../diagnosis/diagnose.ts';
import type { Draws } from '../diagnosis/model/draws.ts';
import { fieldOfPlan, latestRecord, type NoField } from '../diagnosis/model/field-of-plan.ts';
import type { FieldRam } from '../diagnosis/model/field-ram.ts';
import type { Readings } from '../diagnosis/model/readings.ts';
import { priorsOfPlan } from '../diagnosis/ranking/priors-of-plan.ts';
import type { Priors } from '../diagnosis/ranking/ranking.ts';
import type { Ground } from '../evaluation/evaluate/evaluate.ts';
import type { Plan } from '../plan/model/plan.ts';
import { type BeatCourse, beatCourse } from '../ram/transient/beat-course.ts';
import { usualReaches } from '../ram/transient/transient-run.ts';

export interface DiagnosisQuestion {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly now: Readings;
  /** The user's own weights of the causes, over those of the plan. */
  readonly priors: Priors;
}

/** A plan's pump may say too little to find a fault by. */
export type DiagnosisOfPlan =
  | {
      readonly ok: true;
      readonly diagnosis: Diagnosis;
      readonly priors: Priors;
      /** Whether the pump's parts are the plan's own or those of a usual ram. */
      readonly parts: 'own' | 'usual';
      readonly record: Readings | null;
    }
  | { readonly ok: false; readonly because: NoField };

export type BeatOfPlan =
  | { readonly ok: true; readonly course: BeatCourse; readonly parts: 'own' | 'usual' }
  | { readonly ok: false; readonly because: NoField };

/** Draws of the ram asked about last. */
let kept: { readonly key: string; readonly draws: Draws } | null = null;

/** What is likely wrong with a plan's pump; draws are made once for a ram and its record. */
export async function diagnosePlan({ plan, ground, now, priors }: DiagnosisQuestion): Promise<DiagnosisOfPlan> {
  const found = fieldOfPlan(plan, ground);
  if (!found.ok) return found;
  const record = latestRecord(plan);
  const key = keyOf(found.field, record);
  if (kept === null || kept.key !== key) kept = { key, draws: drawsFor(found.field, record) };
  const weights = { ...priorsOfPlan(found.findings), ...priors };
  const diagnosis = diagnose(kept.draws, { record, now, priors: weights });
  return { ok: true, diagnosis, priors: weights, parts: found.parts, record };
}

/** Flows at which two delivery lines are compared, as shares of the usual delivery. */
const SOUNDINGS = [0.5, 1, 3];

function keyOf(field: FieldRam, record: Readings | null): string {
  const { line, usualDelivery, ...rest } = field;
  return JSON.stringify([rest, usualDelivery, SOUNDINGS.map((share) => line.headLoss(share * usualDelivery)), record]);
}

/** Head at which water at 10 °C boils at sea level. Source: IAPWS-95, ISO 2533. */
const VAPOUR_HEAD = -10.21;
const PERCENT = 100;

/** How a long job tells how far it has come, and is stopped. */
interface Watched {
  readonly signal: AbortSignal;
  readonly progress: (progress: { readonly done: number; readonly of: number }) => void;
}

/** Three simulated beats of a plan's pump as it should run. */
export async function beatOfPlan(
  { plan, ground }: Pick<DiagnosisQuestion, 'plan' | 'ground'>,
  job: Watched,
  pause: () => Promise<void>,
): Promise<BeatOfPlan> {
  const found = fieldOfPlan(plan, ground);
  if (!found.ok) return found;
  const { field } = found;
  const steps = beatCourse({
    ram: field.ram,
    closing: field.closing,
    fall: field.fall,
    deliveryHead: field.lift + field.line.headLoss(field.usualDelivery),
    airChamber: null,
    standpipe: null,
    reaches: usualReaches,
    vapourHead: VAPOUR_HEAD,
  });
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return { ok: true, course: step.value, parts: found.parts };
    job.progress({ done: Math.round(PERCENT * step.value), of: PERCENT });
    await pause();
    job.signal.throwIfAborted();
  }
}
