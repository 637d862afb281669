import { computed, signal } from '@preact/signals';
import type { CauseCode } from '../../diagnosis/model/causes.ts';
import { noReadings, type Readings } from '../../diagnosis/model/readings.ts';
import type { BeatOfPlan, DiagnosisOfPlan } from '../../worker/diagnosis-service.ts';
import type { Progress } from '../../worker/messages.ts';

/** Parts of the page for a pump that does not do what it should. */
export type TroublePart = 'seen' | 'records';

export const troubleOpen = signal(false);
export const troublePart = signal<TroublePart>('seen');
/** What is read at the pump now. */
export const readings = signal<Readings>(noReadings);
/** The user's own weights of the causes. */
export const ownPriors = signal<Partial<Readonly<Record<CauseCode, number>>>>({});

export type DiagnosisState =
  | { readonly kind: 'none' }
  | { readonly kind: 'no-ground' }
  | { readonly kind: 'busy'; readonly last: DiagnosisOfPlan | null }
  | { readonly kind: 'done'; readonly found: DiagnosisOfPlan }
  | { readonly kind: 'failed'; readonly reason: string };

export const diagnosisState = signal<DiagnosisState>({ kind: 'none' });

/** The newest diagnosis, also while the next is being made. */
export const diagnosisFound = computed<DiagnosisOfPlan | null>(() => {
  const state = diagnosisState.value;
  return state.kind === 'done' ? state.found : state.kind === 'busy' ? state.last : null;
});

/** Counting of beats: taps so far, ms, or the microphone. */
export const taps = signal<readonly number[]>([]);

export type Listening =
  | { readonly kind: 'idle' }
  | { readonly kind: 'asking' }
  | { readonly kind: 'listening'; readonly seconds: number }
  | { readonly kind: 'counted'; readonly beatsPerMinute: number; readonly jitter: number; readonly beats: number }
  | { readonly kind: 'unclear' }
  | { readonly kind: 'refused' }
  | { readonly kind: 'absent' };

export const listening = signal<Listening>({ kind: 'idle' });

export type BeatState =
  | { readonly kind: 'none' }
  | { readonly kind: 'busy'; readonly progress: Progress | null; readonly stop: AbortController }
  | { readonly kind: 'done'; readonly plan: object; readonly beat: BeatOfPlan }
  | { readonly kind: 'failed'; readonly reason: string };

export const beatState = signal<BeatState>({ kind: 'none' });
