import { signal } from '@preact/signals';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { PhysicalRam, PointId, PumpSheet } from '../../plan/model/plan.ts';

/** A form that the list of what to measure has opened: a height against a point, a bucket test, a test run. */
export type AskedForm =
  | { readonly kind: 'height'; readonly point: PointId; readonly from: PointId | null }
  | { readonly kind: 'bucket' }
  | { readonly kind: 'run' };

export const askedForm = signal<AskedForm | null>(null);

/** What was known before the last thing that was measured; null once something else was changed. */
export const beforeMeasured = signal<Evaluation | null>(null);

/** A pump as it was entered before another way of knowing it was chosen. */
export const otherPump = signal<{ readonly sheet?: PumpSheet; readonly ram?: PhysicalRam }>({});
