import { startHistory } from '../../plan/edits/history.ts';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import { handbookRows } from '../../plan/model/known-rows.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { Outcome } from '../../units/outcome.ts';
import { type Desk, isUnsaved, newId, type Sheet } from '../state/alternatives.ts';
import type { FileReference, KeptPlan, KeptWork } from './kept-work.ts';

const texts = new WeakMap<Plan, string>();

/** What a tab works on, in the form in which it is kept. */
export function workOfDesk(desk: Desk, files: readonly FileReference[], at: number): KeptWork {
  const { id, shown } = desk;
  const demo = desk.sheets.some((sheet) => sheet.id === shown && sheet.demo);
  return { id, at, shown, demo, plans: desk.sheets.map(planOfSheet), files };
}

function planOfSheet(sheet: Sheet): KeptPlan {
  const { present } = sheet.history;
  return { id: sheet.id, name: present.name, text: textOf(present), saved: !isUnsaved(sheet) };
}

/** Of several sheets only one changes at a time; the text of the others is known. */
function textOf(plan: Plan): string {
  const known = texts.get(plan) ?? writePlan(plan);
  texts.set(plan, known);
  return known;
}

/** The desk of a kept work; as a copy it is another work and in no file. */
export function deskOfWork(work: KeptWork, { asCopy }: { readonly asCopy: boolean }): Outcome<Desk> {
  const sheets: Sheet[] = [];
  for (const plan of work.plans) {
    const sheet = sheetOf(plan, { demo: work.demo, asCopy });
    if (!sheet.ok) return sheet;
    sheets.push(sheet.value);
  }
  const shown = sheets.some(({ id }) => id === work.shown) ? work.shown : (sheets[0]?.id ?? '');
  return { ok: true, value: { id: asCopy ? newId() : work.id, shown, sheets } };
}

function sheetOf(
  kept: KeptPlan,
  { demo, asCopy }: { readonly demo: boolean; readonly asCopy: boolean },
): Outcome<Sheet> {
  const read = readPlan(kept.text, handbookRows);
  if (!read.ok) return read;
  const saved = kept.saved && !asCopy;
  // What was saved last is not known any more; anything else than the present plan stands for it.
  const savedPlan = saved ? read.value : { ...read.value };
  return { ok: true, value: { id: kept.id, history: startHistory(read.value), savedPlan, demo } };
}
