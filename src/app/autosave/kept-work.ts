import { checksum } from './checksum.ts';
import { readChange, type TextChange } from './text-change.ts';

/** One plan of a work, as the text of its plan file. */
export interface KeptPlan {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  /** Whether this is what was last written to a file, or opened from one. */
  readonly saved: boolean;
  /** Whether it was handed to the browser as a download: nobody tells the page whether that came to the disk. */
  readonly handed?: boolean;
  /** The steps that led here, the newest first, each as the way back to the text before it. */
  readonly steps?: readonly KeptStep[];
}

/** A step that can be undone: what it did, and what leads from the text after it to the text before. */
export interface KeptStep {
  readonly code: string;
  readonly name: string;
  readonly back: TextChange;
}

/** How works are written by this version; what a later version wrote differently has a higher number and is left alone. */
export const WORK_VERSION = 1;

/** A file as it can be told from another one without reading it. */
export interface FileReference {
  readonly name: string;
  readonly size: number;
  readonly lastModified: number;
  /** Where it lies, for a file that was opened by its address; its size and time are not looked at. */
  readonly address?: string;
}

/** What a tab works on: its plan with the alternatives to it, and the elevation files it lies on. */
export interface KeptWork {
  readonly id: string;
  /** When it was kept, ms since 1970. */
  readonly at: number;
  readonly shown: string;
  readonly demo: boolean;
  readonly plans: readonly KeptPlan[];
  readonly files: readonly FileReference[];
}

/** Whether some of a work was never seen to be in a file. */
export function notInFile(work: KeptWork): boolean {
  return work.plans.some(({ saved }) => !saved);
}

/** Whether some of a work is in no file and was not handed to the browser as one either. */
export function neverHanded(work: KeptWork): boolean {
  return work.plans.some(({ saved, handed }) => !saved && handed !== true);
}

/** What a work goes by: the name of the plan that was shown. */
export function workName(work: KeptWork): string {
  return (work.plans.find(({ id }) => id === work.shown) ?? work.plans[0])?.name ?? '';
}

/** Whether two states of a work differ in nothing but their time. Texts that are the same string compare at once. */
export function sameWork(a: KeptWork, b: KeptWork): boolean {
  const plans = a.plans.length === b.plans.length && a.plans.every((plan, at) => samePlan(plan, b.plans[at]));
  const files = JSON.stringify(a.files) === JSON.stringify(b.files);
  return plans && files && a.id === b.id && a.shown === b.shown && a.demo === b.demo;
}

function samePlan(a: KeptPlan, b: KeptPlan | undefined): boolean {
  return a.id === b?.id && a.name === b.name && a.text === b.text && a.saved === b.saved && a.handed === b.handed;
}

/** A work as it is written: with its version, and with a checksum of every text. */
export function sealedWork(work: KeptWork): object {
  return { ...work, version: WORK_VERSION, plans: work.plans.map((plan) => ({ ...plan, sum: checksum(plan.text) })) };
}

/** What came of reading a work: itself, or that it is not whole any more, or that this version does not understand it. */
export type ReadWork =
  | { readonly kind: 'whole'; readonly work: KeptWork }
  | { readonly kind: 'torn' }
  | { readonly kind: 'later' };

/** A work as it was found. */
export function readWork(found: unknown): ReadWork {
  if (!isRecord(found)) return { kind: 'torn' };
  const { version, id, at, shown, demo, plans, files } = found;
  if (version !== undefined && version !== WORK_VERSION) return { kind: 'later' };
  if (typeof id !== 'string' || typeof at !== 'number' || typeof shown !== 'string') return { kind: 'later' };
  if (typeof demo !== 'boolean' || !Array.isArray(plans) || !Array.isArray(files)) return { kind: 'later' };
  if (plans.length === 0 || !plans.every(isPlan) || !files.every(isReference)) return { kind: 'later' };
  if (!plans.every(isWhole)) return { kind: 'torn' };
  return { kind: 'whole', work: { id, at, shown, demo, plans: plans.map(planFound), files } };
}

function isPlan(found: unknown): found is KeptPlan {
  if (!isRecord(found)) return false;
  const { id, name, text, saved } = found;
  return [id, name, text].every((each) => typeof each === 'string') && typeof saved === 'boolean';
}

/** Works of versions before this one have no checksum. */
function isWhole(plan: KeptPlan & { readonly sum?: unknown }): boolean {
  return plan.sum === undefined || plan.sum === checksum(plan.text);
}

function planFound({ id, name, text, saved, handed, steps }: KeptPlan): KeptPlan {
  const read = Array.isArray(steps) ? steps.filter(isStep) : [];
  return {
    id,
    name,
    text,
    saved,
    ...(handed === true && { handed }),
    // A way back leads on from the one before it: the first that cannot be read is the last.
    ...(read.length > 0 && read.length === steps?.length && { steps: read }),
  };
}

function isStep(found: unknown): found is KeptStep {
  return (
    isRecord(found) &&
    typeof found.code === 'string' &&
    typeof found.name === 'string' &&
    readChange(found.back) !== null
  );
}

export function isReference(found: unknown): found is FileReference {
  return (
    isRecord(found) &&
    typeof found.name === 'string' &&
    typeof found.size === 'number' &&
    typeof found.lastModified === 'number' &&
    (found.address === undefined || typeof found.address === 'string')
  );
}

export function isRecord(found: unknown): found is Readonly<Record<string, unknown>> {
  return typeof found === 'object' && found !== null;
}

/** What can be read and written while a transaction lasts. Nothing else may be waited for in between. */
export interface KeepAccess {
  get(key: string): Promise<unknown>;
  put(key: string, value: unknown): Promise<void>;
  delete(key: string): Promise<void>;
  keys(): Promise<readonly string[]>;
}

/** A place that outlives the page: names and values, read and written in transactions. */
export interface KeepStore {
  transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T>;
}
