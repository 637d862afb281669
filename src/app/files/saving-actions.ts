import { startHistory } from '../../plan/edits/history.ts';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import { handbookRows } from '../../plan/model/known-rows.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import { layOut, markSaved } from '../actions/desk-actions.ts';
import { openPlanFile, savePlan, withAnswerKept } from '../actions/plan-file-actions.ts';
import { desk, newId, sheets } from '../state/alternatives.ts';
import { announcement, history, planFile } from '../state/store.ts';
import { handleOfLink, lookOnDisk, planLinks, setLink, writeToDisk } from './plan-links.ts';
import { tellOpened } from './same-file.ts';
import { savingTrouble } from './saving-state.ts';

/** Opens a plan file of the user's and remembers which it was. */
export async function openPlanFromDisk(file: File): Promise<void> {
  if (!(await openPlanFile(file))) return;
  const link = { file, text: await file.text(), handle: null };
  setLink(desk.value.shown, link);
  tellOpened(link);
}

/** Saves the plan where it came from, or hands it to the browser as a new file. What changed on disk is never written over unasked. */
export async function savePlanToDisk(): Promise<void> {
  const sheet = desk.value.shown;
  const link = planLinks.value.get(sheet);
  const handle = link === undefined ? null : handleOfLink(link);
  if (link === undefined || handle === null) {
    // Where the user can choose a place, the page knows whether the plan came there.
    if (canSaveAs()) await savePlanAs();
    else savePlan();
    return;
  }
  const disk = await lookOnDisk(link, handle);
  if (disk.kind === 'changed') savingTrouble.value = { kind: 'changed', sheet, onDisk: disk.link };
  else if (disk.kind === 'gone') failed(sheet, link.file.name, disk.reason);
  else await write(sheet, handle);
}

/** The file that saving writes to; none when the browser is handed a new one. */
export function savesTo(): string | null {
  const link = planLinks.value.get(desk.value.shown);
  return link === undefined || handleOfLink(link) === null ? null : link.file.name;
}

/** Asks for a place on disk; the plan is saved there from now on. */
export async function savePlanAs(): Promise<void> {
  const sheet = desk.value.shown;
  const suggestedName = `${safeFileName(history.value.present.name, 'plan')}.geojson`;
  const handle = await askForPlace(suggestedName);
  if (handle !== null) await write(sheet, handle);
}

/** Whether the browser can write to a file that the user chooses. */
export function canSaveAs(): boolean {
  return givesPlace(window);
}

interface PlaceGiver {
  showSaveFilePicker(options: { readonly suggestedName: string }): Promise<FileSystemFileHandle>;
}

function givesPlace(page: object): page is PlaceGiver {
  return 'showSaveFilePicker' in page;
}

/** None when the user thinks better of it. */
async function askForPlace(suggestedName: string): Promise<FileSystemFileHandle | null> {
  if (!givesPlace(window)) return null;
  try {
    return await window.showSaveFilePicker({ suggestedName });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}

async function write(sheet: string, handle: FileSystemFileHandle): Promise<void> {
  const plan = planOf(sheet);
  if (plan === null) return;
  try {
    const link = await writeToDisk(handle, writePlan(withAnswerKept(plan)));
    setLink(sheet, link);
    markSaved(sheet, plan);
    savingTrouble.value = null;
    announcement.value = `Saved: ${handle.name}`;
    tellOpened(link);
  } catch (error) {
    failed(sheet, handle.name, error instanceof Error ? error.message : String(error));
  }
}

function planOf(sheet: string): Plan | null {
  return sheets.value.find(({ id }) => id === sheet)?.history.present ?? null;
}

function failed(sheet: string, name: string, reason: string): void {
  savingTrouble.value = { kind: 'failed', sheet, name, reason };
}

/** Leaves the file on disk as it is and hands the plan to the browser as a new one. */
export function saveAsAnother(): void {
  setLink(desk.value.shown, null);
  savingTrouble.value = null;
  void savePlanToDisk();
}

/** Lays what is on disk beside the plan as an alternative, to be compared. */
export function lookAtDisk(): void {
  const trouble = savingTrouble.value;
  if (trouble?.kind !== 'changed') return;
  const { name } = trouble.onDisk.file;
  const read = readPlan(trouble.onDisk.text, handbookRows);
  if (!read.ok) {
    planFile.value = { kind: 'refused', names: [name], problems: read.problems };
    return;
  }
  const sheet = { id: newId(), history: startHistory(read.value), savedPlan: read.value, demo: false };
  // The file belongs to what lies on disk; the plan that was at hand is saved as another one.
  setLink(trouble.sheet, null);
  setLink(sheet.id, trouble.onDisk);
  layOut({ ...desk.value, shown: sheet.id, sheets: [...sheets.value, sheet] });
  savingTrouble.value = null;
  announcement.value = `Shown: ${name} as it is on disk`;
}

export async function overwriteDisk(): Promise<void> {
  const trouble = savingTrouble.value;
  const handle = trouble?.kind === 'changed' ? trouble.onDisk.handle : null;
  if (trouble !== null && handle !== null) await write(trouble.sheet, handle);
}

export function leaveTrouble(): void {
  savingTrouble.value = null;
}
