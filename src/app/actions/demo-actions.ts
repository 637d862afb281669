import { batch } from '@preact/signals';
import demUrl from '../../../data/demo/dem.tif?url';
import pictureUrl from '../../../data/demo/picture.tif?url';
import planUrl from '../../../data/demo/plan.geojson?url';
import { demo, plan, planFile, selection } from '../state/store.ts';
import { sheetSeen, stopReached, tourDone, tourStop } from '../state/tour-store.ts';
import { openPlanFile } from './plan-file-actions.ts';
import { openPictureFiles, openTerrainFiles } from './terrain-actions.ts';

/** Opens the invented valley that the planner brings along: its plan, its elevation and its picture. */
export async function openDemo(): Promise<void> {
  try {
    await openPlanFile(await fetched(planUrl, 'plan.geojson'), { isDemo: true });
    const [dem, picture] = await Promise.all([fetched(demUrl, 'dem.tif'), fetched(pictureUrl, 'picture.tif')]);
    await Promise.all([openTerrainFiles([dem]), openPictureFiles([picture])]);
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    const problem = { code: 'demo-unreachable', path: '', found, expected: 'the demo valley beside the page' };
    planFile.value = { kind: 'refused', names: ['The demo valley'], problems: [problem] };
  }
}

async function fetched(address: string, name: string): Promise<File> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`answer ${answer.status} for ${name}`);
  return new File([await answer.blob()], name);
}

/** Starts the guided look at its first stop, on the demo as it came. */
export async function startTour(): Promise<void> {
  if (!demo.value || plan.value.points.length === 0) await openDemo();
  batch(() => {
    selection.value = null;
    sheetSeen.value = false;
    tourDone.value = new Set();
    tourStop.value = 0;
  });
}

/** On to another stop. */
export function goToStop(stop: number): void {
  tourStop.value = stop;
}

export function leaveTour(): void {
  tourStop.value = null;
}

/** Keeps what was done: a stop stays done when the learner goes on. */
export function followTour(): void {
  const stop = tourStop.value;
  if (stop === null || !stopReached.value || tourDone.value.has(stop)) return;
  tourDone.value = new Set([...tourDone.value, stop]);
}

/** Told when a sheet was laid out. */
export function tellSheetSeen(): void {
  sheetSeen.value = true;
}
