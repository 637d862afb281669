import { checksum } from './checksum.ts';
import { isRecord, type KeptPlan, type KeptStep, type KeptWork, WORK_VERSION } from './kept-work.ts';
import { changeBetween, changed, readChange, sizeOfChange, type TextChange } from './text-change.ts';

/** Texts below this are kept whole each time, characters: the database writes a page of it anyway. */
const SMALL = 64 * 1024;
/** What has changed is kept by itself up to this share of the text. */
const MOST_SHARE = 1 / 8;

/** What has become of a work since its body was written. */
export interface LateWork {
  readonly version: number;
  readonly at: number;
  readonly shown: string;
  readonly demo: boolean;
  readonly files: KeptWork['files'];
  readonly plans: readonly LatePlan[];
}

interface LatePlan extends Omit<KeptPlan, 'text'> {
  /** Checksums of the text in the body and of the text that the change makes of it. */
  readonly of: string;
  readonly sum: string;
  readonly change: TextChange;
}

/**
 * What has changed since a body was written, where that is much shorter than the whole: an edit of a plan of a megabyte then
 * writes some hundred bytes. Null where the whole is to be written.
 */
export function lateWork(body: KeptWork, now: KeptWork): LateWork | null {
  const size = now.plans.reduce((sum, { text }) => sum + text.length, 0);
  if (size < SMALL || body.id !== now.id || body.plans.length !== now.plans.length) return null;
  const plans: LatePlan[] = [];
  let changes = 0;
  for (const [at, { text, ...plan }] of now.plans.entries()) {
    const before = body.plans[at];
    if (before?.id !== plan.id) return null;
    const change = changeBetween(before.text, text);
    changes += sizeOfChange(change) + sizeOfSteps(plan.steps ?? []);
    if (changes > MOST_SHARE * size) return null;
    plans.push({ ...plan, of: checksum(before.text), sum: checksum(text), change });
  }
  const { at, shown, demo, files } = now;
  return { version: WORK_VERSION, at, shown, demo, files, plans };
}

const sizeOfSteps = (steps: readonly KeptStep[]) => steps.reduce((sum, { back }) => sum + 40 + sizeOfChange(back), 0);

/** A work as it was last; its body alone where what was kept later does not fit it or is not whole. */
export function withLate(body: KeptWork, found: unknown): KeptWork {
  if (!isRecord(found) || found.version !== WORK_VERSION || !Array.isArray(found.plans)) return body;
  const late: LateWork = found as unknown as LateWork;
  if (late.plans.length !== body.plans.length || typeof late.at !== 'number') return body;
  const plans: KeptPlan[] = [];
  for (const [at, { of, sum, change, ...plan }] of late.plans.entries()) {
    const before = body.plans[at];
    const read = readChange(change);
    if (before?.id !== plan.id || read === null || of !== checksum(before.text)) return body;
    const text = changed(before.text, read);
    if (text === null || sum !== checksum(text)) return body;
    plans.push({ ...plan, text });
  }
  const { at, shown, demo, files } = late;
  return { id: body.id, at, shown, demo, plans, files };
}
