import { batch } from '@preact/signals';
import { changeSettings } from '../../plan/edits/edit-settings.ts';
import { commit, type History, startHistory } from '../../plan/edits/history.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import type { Problem } from '../../units/outcome.ts';
import {
  type Desk,
  deletedSheet,
  desk,
  deskOfStore,
  handedOver,
  newId,
  type Sheet,
  sheets,
} from '../state/alternatives.ts';
import {
  announcement,
  chosenWay,
  cursor,
  demo,
  history,
  planFile,
  savedPlan,
  selection,
  tool,
} from '../state/store.ts';
import { edit } from './edit-actions.ts';
import { download, savePlan } from './plan-file-actions.ts';

let before = history.peek();

/** Clears the desk when another plan was begun or opened; called of every change of the plan, before anything is kept. */
export function followDesk(): void {
  const now = history.value;
  if (startedAnew(before, now)) {
    deletedSheet.value = null;
    desk.value = deskOfStore();
  }
  before = now;
}

/** Whether a history is no continuation of another: it has no steps and yet another plan. */
export function startedAnew(earlier: History, now: History): boolean {
  return now.past.length === 0 && now.future.length === 0 && now.present !== earlier.present;
}

/** Puts a whole desk in the place of this one. */
export function layOut(next: Desk): void {
  const shown = next.sheets.find(({ id }) => id === next.shown);
  if (shown === undefined)
    throw new Error(`found a desk without its sheet ${next.shown}, expected it among its sheets`);
  before = shown.history;
  batch(() => {
    desk.value = next;
    history.value = shown.history;
    savedPlan.value = shown.savedPlan;
    demo.value = shown.demo;
    planFile.value = { kind: 'idle' };
    selection.value = null;
    cursor.value = null;
    chosenWay.value = null;
    tool.value = 'select';
  });
}

/** Lays an alternative beside the plan that is shown, and turns to it. */
export function copyAsAlternative(): void {
  const { present } = history.value;
  const named = changeSettings(present, { name: freeName(present.name) });
  const copy = startHistory(named.ok ? named.value.plan : present);
  // Saved as the plan it was copied from: the copy itself is in no file yet.
  const sheet: Sheet = { id: newId(), history: copy, savedPlan: present, demo: demo.value };
  layOut({ ...desk.value, shown: sheet.id, sheets: [...sheets.value, sheet] });
  announcement.value = `Copied: ${copy.present.name}`;
}

/** A name for a copy that no sheet has yet; what tells it apart comes first, where a narrow page still shows it. */
function freeName(name: string): string {
  const taken = new Set(sheets.value.map((sheet) => sheet.history.present.name));
  const stem = name.replace(/^Alternative \d+ of /, '');
  const named = (number: number) => `Alternative ${number} of ${stem}`;
  let number = 2;
  while (taken.has(named(number))) number++;
  return named(number);
}

export function turnTo(id: string): void {
  if (id === desk.value.shown) return;
  layOut({ ...desk.value, shown: id, sheets: sheets.value });
  announcement.value = `Shown: ${history.value.present.name}`;
}

/** Names a sheet; one step to undo there. */
export function renameSheet(id: string, name: string): readonly Problem[] {
  if (id === desk.value.shown) return edit((plan) => changeSettings(plan, { name }));
  const sheet = sheets.value.find((each) => each.id === id);
  if (sheet === undefined) return [];
  const made = changeSettings(sheet.history.present, { name });
  if (!made.ok) return made.problems;
  replaceSheet({ ...sheet, history: commit(sheet.history, made.value) });
  return [];
}

/** Takes a sheet off the desk; the last one stays. It can be put back until another one is deleted. */
export function deleteSheet(id: string): void {
  const all = sheets.value;
  const at = all.findIndex((sheet) => sheet.id === id);
  const sheet = all[at];
  const next = all[at + 1] ?? all[at - 1];
  if (sheet === undefined || next === undefined) return;
  const left = all.filter((each) => each !== sheet);
  batch(() => {
    deletedSheet.value = { sheet, at };
    if (id === desk.value.shown) layOut({ ...desk.value, shown: next.id, sheets: left });
    else desk.value = { ...desk.value, sheets: left };
    announcement.value = `Deleted: ${sheet.history.present.name}`;
  });
}

export function putSheetBack(): void {
  const deleted = deletedSheet.value;
  if (deleted === null) return;
  batch(() => {
    desk.value = { ...desk.value, sheets: sheets.value.toSpliced(deleted.at, 0, deleted.sheet) };
    deletedSheet.value = null;
    announcement.value = `Put back: ${deleted.sheet.history.present.name}`;
  });
}

/** Hands a sheet to the browser as a file to keep. */
export function saveSheet(id: string): void {
  if (id === desk.value.shown) {
    savePlan();
    return;
  }
  const sheet = sheets.value.find((each) => each.id === id);
  if (sheet === undefined) return;
  const plan: Plan = sheet.history.present;
  download(writePlan(plan), { name: `${safeFileName(plan.name, 'plan')}.geojson`, type: 'application/geo+json' });
  handedOver.add(plan);
  replaceSheet({ ...sheet, savedPlan: plan });
}

/** What was deleted is not offered any longer. */
export function letSheetGo(): void {
  deletedSheet.value = null;
}

/** Takes a plan of a sheet as the one that is in a file now. */
export function markSaved(id: string, plan: Plan): void {
  handedOver.delete(plan);
  if (id === desk.value.shown) savedPlan.value = plan;
  else desk.value = { ...desk.value, sheets: sheets.value.map((s) => (s.id === id ? { ...s, savedPlan: plan } : s)) };
}

function replaceSheet(sheet: Sheet): void {
  desk.value = { ...desk.value, sheets: sheets.value.map((each) => (each.id === sheet.id ? sheet : each)) };
}
