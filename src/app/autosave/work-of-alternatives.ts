import { type History, type Step, startHistory } from '../../plan/edits/history.ts';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import { handbookRows } from '../../plan/model/known-rows.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { isEditCode } from '../../report/words/step-words.ts';
import type { Outcome } from '../../units/outcome.ts';
import { type Desk, handedOver, isUnsaved, newId, type Sheet } from '../state/alternatives.ts';
import type { FileReference, KeptPlan, KeptStep, KeptWork } from './kept-work.ts';
import { changeBetween, changed, type TextChange } from './text-change.ts';

const texts = new WeakMap<Plan, string>();

/** What a tab works on, in the form in which it is kept. */
export function workOfDesk(desk: Desk, files: readonly FileReference[], at: number): KeptWork {
  const { id, shown } = desk;
  const demo = desk.sheets.some((sheet) => sheet.id === shown && sheet.demo);
  return { id, at, shown, demo, plans: desk.sheets.map(planOfSheet), files };
}

function planOfSheet(sheet: Sheet): KeptPlan {
  const { present } = sheet.history;
  const open = isUnsaved(sheet);
  const handed = !open && handedOver.has(present);
  const steps = stepsOf(sheet.history);
  return {
    id: sheet.id,
    name: present.name,
    text: textOf(present),
    saved: !open && !handed,
    ...(handed && { handed }),
    ...(steps.length > 0 && { steps }),
  };
}

/** Of several sheets only one changes at a time; the text of the others is known. */
function textOf(plan: Plan): string {
  const known = texts.get(plan) ?? writePlan(plan);
  texts.set(plan, known);
  return known;
}

/** So many steps are kept, and as many as their plans have this many characters together. */
const MOST_STEPS = 40;
const MOST_STEP_TEXT = 4_000_000;

const ways = new WeakMap<Plan, { readonly from: Plan; readonly back: TextChange }>();

/** The steps that led to a plan, the newest first, each as the way back. */
function stepsOf({ past, present }: History): readonly KeptStep[] {
  const most = Math.min(MOST_STEPS, Math.floor(MOST_STEP_TEXT / textOf(present).length));
  let from = present;
  return past
    .slice(-most || past.length)
    .toReversed()
    .slice(0, most)
    .map(({ plan, label }) => {
      const known = ways.get(plan);
      const back = known?.from === from ? known.back : changeBetween(textOf(from), textOf(plan));
      ways.set(plan, { from, back });
      from = plan;
      return { ...label, back };
    });
}

/** The steps of a kept plan as they can be undone; it ends at the first that leads to no plan. */
function historyOf(kept: KeptPlan, present: Plan): History {
  const past: Step[] = [];
  let text = kept.text;
  for (const { code, name, back } of kept.steps ?? []) {
    const before = changed(text, back);
    const read = before === null ? null : readPlan(before, handbookRows);
    if (before === null || !read?.ok || !isEditCode(code)) break;
    texts.set(read.value, before);
    past.unshift({ plan: read.value, label: { code, name } });
    text = before;
  }
  return { ...startHistory(present), past };
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
  const saved = (kept.saved || kept.handed === true) && !asCopy;
  if (saved && kept.handed === true) handedOver.add(read.value);
  texts.set(read.value, kept.text);
  // What was saved last is not known any more; anything else than the present plan stands for it.
  const savedPlan = saved ? read.value : { ...read.value };
  return { ok: true, value: { id: kept.id, history: historyOf(kept, read.value), savedPlan, demo } };
}
