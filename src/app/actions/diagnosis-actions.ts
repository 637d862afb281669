import { beatsFromTaps } from '../../diagnosis/model/beat-count.ts';
import type { CauseCode } from '../../diagnosis/model/causes.ts';
import { type Channel, noReadings, type RamState, type Readings, type Sign } from '../../diagnosis/model/readings.ts';
import type { Edit } from '../../plan/edits/edit.ts';
import { setRecords } from '../../plan/edits/edit-water.ts';
import type { Plan, RunRecord } from '../../plan/model/plan.ts';
import {
  beatState,
  diagnosisFound,
  diagnosisState,
  listening,
  ownPriors,
  readings,
  type TroublePart,
  taps,
  troubleOpen,
  troublePart,
} from '../state/diagnosis-store.ts';
import { onGround } from '../state/jobs-store.ts';
import { announcement, history, terrain } from '../state/store.ts';
import { edit } from './edit-actions.ts';

export function openTrouble(part: TroublePart = 'seen'): void {
  troublePart.value = part;
  troubleOpen.value = true;
  void reckonCauses();
}

export function closeTrouble(): void {
  troubleOpen.value = false;
}

export function showTroublePart(part: TroublePart): void {
  troublePart.value = part;
}

export function seeState(state: RamState | null): void {
  change({ state });
}

/** A sign is seen, or no longer. */
export function seeSign(sign: Sign, seen: boolean): void {
  const signs = readings.value.signs.filter((one) => one !== sign);
  change({ signs: seen ? [...signs, sign] : signs });
}

export function enterReading(channel: Channel, value: number | null): readonly [] {
  change({ [channel]: value });
  return [];
}

export function clearReadings(): void {
  taps.value = [];
  change(noReadings);
}

export function weighCause(code: CauseCode, weight: number | null): readonly [] {
  const { [code]: _, ...rest } = ownPriors.value;
  ownPriors.value = weight === null ? rest : { ...rest, [code]: weight };
  void reckonCauses();
  return [];
}

function change(changes: Partial<Readings>): void {
  readings.value = { ...readings.value, ...changes };
  void reckonCauses();
}

let asking: AbortController | null = null;

/** Asks for the causes anew; an older question gives way. */
export async function reckonCauses(): Promise<void> {
  const known = onGround.value;
  const asked = terrain.value;
  asking?.abort();
  if (known === null || asked === null) {
    diagnosisState.value = { kind: 'no-ground' };
    return;
  }
  const stop = new AbortController();
  asking = stop;
  diagnosisState.value = { kind: 'busy', last: diagnosisFound.value };
  const question = {
    plan: history.value.present,
    ground: known.ground,
    now: readings.value,
    priors: ownPriors.value,
  };
  try {
    const found = await asked.diagnose(question, stop.signal);
    if (!stop.signal.aborted) diagnosisState.value = { kind: 'done', found };
  } catch (error) {
    if (stop.signal.aborted) return;
    diagnosisState.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
  }
}

/** Taps older than this begin a new count, ms. */
const PAUSE = 6000;
/** Taps that are enough. */
const ENOUGH = 30;
const SECOND = 1000;

/** One beat, tapped along with the ram; the count goes into the readings once there are enough for one. */
export function tapBeat(now: number): void {
  const last = taps.value.at(-1);
  const fresh = last === undefined || now - last > PAUSE || taps.value.length > ENOUGH ? [] : taps.value;
  taps.value = [...fresh, now];
  const counted = beatsFromTaps(taps.value.map((at) => at / SECOND));
  if (counted === null) return;
  change({ state: 'runs', beatsPerMinute: counted.beatsPerMinute, jitter: counted.jitter });
  if (taps.value.length > ENOUGH)
    announcement.value = `Thirty beats counted: ${Math.round(counted.beatsPerMinute)} a minute`;
}

export function clearTaps(): void {
  taps.value = [];
}

/** Puts what the microphone counted into the readings. */
export function takeCount(): void {
  const heard = listening.value;
  if (heard.kind !== 'counted') return;
  change({ state: 'runs', beatsPerMinute: heard.beatsPerMinute, jitter: heard.jitter });
  listening.value = { kind: 'idle' };
}

/** Keeps what is read now as a record of the pump when it runs well. */
export function keepAsRecord(date: string, by: string): readonly import('../../units/outcome.ts').Problem[] {
  const now = readings.value;
  const atPump = now.deliveryAtPump !== null;
  const record: RunRecord = {
    date,
    by,
    level: now.level,
    beatsPerMinute: now.beatsPerMinute,
    waste: now.waste,
    delivery: now.deliveryAtPump ?? now.deliveryAtTank,
    deliveryReadAt: atPump ? 'pump' : 'tank',
    gaugeRest: now.gaugeRest,
    gaugeRunning: now.gaugeRunning,
    gaugeSwing: now.gaugeSwing,
    valveWeight: null,
    valveStroke: null,
    note: '',
  };
  return changeRecords((records) => [...records, record]);
}

export function changeRecords(next: (records: readonly RunRecord[]) => readonly RunRecord[]) {
  const problems = edit((plan: Plan): Edit => setRecords(plan, next(plan.records ?? [])));
  void reckonCauses();
  return problems;
}

/** Makes a remedy one step in the plan. */
export function takeRemedy(make: (plan: Plan) => Edit): void {
  edit(make);
}

/** Simulates the beat of the chosen pump. */
export async function simulateBeat(): Promise<void> {
  const known = onGround.value;
  const asked = terrain.value;
  if (known === null || asked === null) return;
  if (beatState.value.kind === 'busy') beatState.value.stop.abort();
  const stop = new AbortController();
  const { present } = history.value;
  beatState.value = { kind: 'busy', progress: null, stop };
  const current = () => beatState.value.kind === 'busy' && beatState.value.stop === stop;
  try {
    const beat = await asked.beatCourse(
      { plan: present, ground: known.ground },
      {
        signal: stop.signal,
        onProgress: (progress) => {
          if (current()) beatState.value = { kind: 'busy', progress, stop };
        },
      },
    );
    if (current()) beatState.value = { kind: 'done', plan: present, beat };
  } catch (error) {
    if (!current()) return;
    beatState.value = stop.signal.aborted
      ? { kind: 'none' }
      : { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
  }
}

export function cancelBeat(): void {
  if (beatState.value.kind !== 'busy') return;
  beatState.value.stop.abort();
  beatState.value = { kind: 'none' };
}
