import { batch } from '@preact/signals';
import { changeSettings } from '../../plan/edits/edit-settings.ts';
import { startHistory } from '../../plan/edits/history.ts';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import { emptyPlan } from '../../plan/model/empty-plan.ts';
import { handbookRows } from '../../plan/model/known-rows.ts';
import type { Plan, UnitSystem } from '../../plan/model/plan.ts';
import { answerSentence, answerVerdict, arrivesSentence, firstSentence } from '../../report/findings/answer-words.ts';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import { openedFrom } from '../state/address-state.ts';
import { handedOver } from '../state/alternatives.ts';
import {
  announcement,
  chosenWay,
  cursor,
  demo,
  evaluation,
  firstUnits,
  grounded,
  history,
  plan,
  planFile,
  plansOpened,
  savedPlan,
  selection,
  terrain,
  tool,
} from '../state/store.ts';
import { edit } from './edit-actions.ts';

/** Larger plan files than this are not read. */
const MOST_BYTES = 20_000_000;

/** Opens a plan file; one that cannot be taken leaves the plan at hand as it is and says why. */
export async function openPlanFile(file: File, { isDemo = false } = {}): Promise<boolean> {
  const names = [file.name];
  if (file.size > MOST_BYTES) {
    const problem = {
      code: 'too-large',
      path: file.name,
      found: `${file.size} bytes`,
      expected: `${MOST_BYTES} at most`,
    };
    planFile.value = { kind: 'refused', names, problems: [problem] };
    return false;
  }
  const read = readPlan(await file.text(), handbookRows);
  if (!read.ok) {
    planFile.value = { kind: 'refused', names, problems: read.problems };
    return false;
  }
  // The demo is shown in the units of whoever looks at it; a plan of somebody's in those that it was made in.
  startWith(isDemo ? { ...read.value, units: firstUnits } : read.value, isDemo);
  return true;
}

/** Starts an empty plan on the ground that is open. */
export function newPlan(): void {
  startWith(emptyPlan({ name: 'New plan', units: plan.value.units }), false);
}

/** Shows a plan as one that was just opened. */
export function startWith(opened: Plan, isDemo: boolean): void {
  batch(() => {
    history.value = startHistory(opened);
    savedPlan.value = opened;
    plansOpened.value += 1;
    demo.value = isDemo;
    planFile.value = { kind: 'idle' };
    selection.value = null;
    cursor.value = null;
    chosenWay.value = null;
    tool.value = 'select';
  });
}

export function hidePlanRefusal(): void {
  planFile.value = { kind: 'idle' };
}

/** Hands the plan to the browser as a file to keep. What becomes of it there, the page is not told. */
export function savePlan(): void {
  const saved = history.value.present;
  const name = `${safeFileName(saved.name, 'plan')}.geojson`;
  download(writePlan(withAnswerKept(saved)), { name, type: 'application/geo+json' });
  // What lies in a file already, or came with the planner, does so after another download as well.
  if (savedPlan.value !== saved) handedOver.add(saved);
  savedPlan.value = saved;
  announcement.value = `Handed to the browser: ${name}. Look whether it is among your downloads.`;
}

export function download(content: BlobPart, { name, type }: { readonly name: string; readonly type: string }): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

export function setUnits(units: UnitSystem): void {
  edit((present) => changeSettings(present, { units }));
}

/**
 * A plan as it is saved: with the answer that it has now, so that it can be read without its elevation file. An answer that
 * came with the file stays while nothing was changed; one that the plan has outgrown goes.
 */
export function withAnswerKept(plan: Plan): Plan {
  const { lastAnswer: _, ...bare } = plan;
  const known = grounded.value;
  const answer = known !== null && known.plan === plan ? (evaluation.value?.answer ?? null) : null;
  if (answer === null || openedFrom.value.length === 0)
    return plan === savedPlan.value && terrain.value === null ? plan : bare;
  const sentences = [answerSentence(answer, plan), arrivesSentence(answer, plan), firstSentence(answer, plan)];
  return {
    ...bare,
    lastAnswer: {
      on: today(),
      verdict: answerVerdict(answer),
      files: openedFrom.value,
      sentences: sentences.filter((sentence) => sentence !== ''),
    },
  };
}

/** The day here, in the order that sorts. */
export function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
