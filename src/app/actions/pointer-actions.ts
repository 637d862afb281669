import type { Position } from '../../geodesy/position.ts';
import { pointerNoteOf, readoutOf } from '../../report/words/pointer-words.ts';
import { reachReadout } from '../../report/words/reach-words.ts';
import { job } from '../state/jobs-store.ts';
import { shownReach } from '../state/place-store.ts';
import { evaluation, panel, placingNote, plan, readout, terrain, tool } from '../state/store.ts';

let asking = false;
let next: Position | null = null;

/** Says what lies under the pointer; the newest place wins. */
export function pointAt(position: Position | null): void {
  next = position;
  if (position === null) {
    readout.value = null;
    placingNote.value = null;
    return;
  }
  if (terrain.value === null) readout.value = readoutOf({ position, ground: null, units: plan.value.units });
  else if (!asking) void answer();
}

async function answer(): Promise<void> {
  asking = true;
  try {
    while (next !== null) await answerOne(next);
  } finally {
    asking = false;
  }
}

async function answerOne(position: Position): Promise<void> {
  const opened = terrain.value;
  const ground = opened === null ? null : await groundOf(opened, position);
  if (next === null) return;
  if (next === position) next = null;
  const { units } = plan.value;
  const reached = opened === null || shownReach.value === null ? null : await reachOf(opened, position);
  if (next !== null && next !== position) return;
  const points = evaluation.value?.points ?? [];
  // While a place is looked for, every place under the pointer is one where a pump could stand.
  const looking = panel.value === 'jobs' && job.value === 'place';
  const fall = looking ? pointerNoteOf({ placing: 'pump', ground, points, units }) : null;
  readout.value = [
    ...readoutOf({ position, ground, units }),
    ...(fall === null ? [] : [fall]),
    ...(reached === null ? [] : reachReadout(reached, units)),
  ];
  const placing = typeof tool.value === 'object' && 'place' in tool.value ? tool.value.place : null;
  placingNote.value = pointerNoteOf({ placing, ground, points, units });
}

/** What would arrive under the pointer; a terrain that was closed meanwhile says nothing. */
async function reachOf(opened: NonNullable<typeof terrain.value>, position: Position) {
  try {
    return await opened.reachAt(position);
  } catch (error) {
    if (terrain.value !== opened) return null;
    throw error;
  }
}

/** Height under the pointer; a terrain that was closed meanwhile has none. */
async function groundOf(opened: NonNullable<typeof terrain.value>, position: Position): Promise<number | null> {
  try {
    const [point] = await opened.groundAt([position]);
    return point?.ground ?? null;
  } catch (error) {
    if (terrain.value !== opened) return null;
    throw error;
  }
}
