/** One plan of a work, as the text of its plan file. */
export interface KeptPlan {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  /** Whether this is what was last saved as a file, or opened from one. */
  readonly saved: boolean;
}

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

/** Whether some of a work is in no file. */
export function notInFile(work: KeptWork): boolean {
  return work.plans.some(({ saved }) => !saved);
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
  return a.id === b?.id && a.name === b.name && a.text === b.text && a.saved === b.saved;
}

/** A work as it was found; null when what was found is none, such as one of a later version. */
export function readWork(found: unknown): KeptWork | null {
  if (!isRecord(found)) return null;
  const { id, at, shown, demo, plans, files } = found;
  if (typeof id !== 'string' || typeof at !== 'number' || typeof shown !== 'string') return null;
  if (typeof demo !== 'boolean' || !Array.isArray(plans) || !Array.isArray(files)) return null;
  if (plans.length === 0 || !plans.every(isPlan) || !files.every(isReference)) return null;
  return { id, at, shown, demo, plans, files };
}

function isPlan(found: unknown): found is KeptPlan {
  if (!isRecord(found)) return false;
  const { id, name, text, saved } = found;
  return [id, name, text].every((each) => typeof each === 'string') && typeof saved === 'boolean';
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
