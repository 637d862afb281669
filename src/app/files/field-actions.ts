import { fieldChanges, takeChanges } from '../../plan/exchange/field-changes.ts';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import { handbookRows } from '../../plan/model/known-rows.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { BundledHeights, BundledPicture, FieldBundle } from '../../report/exchange/field-bundle.ts';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import type { Outcome } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import { edit } from '../actions/edit-actions.ts';
import { download, startWith } from '../actions/plan-file-actions.ts';
import { openPictureFiles, openTerrainFiles } from '../actions/terrain-actions.ts';
import { rememberTakenFrom } from '../client/taken-from.ts';
import { bundling, fieldNote, merging, takenAs } from '../state/field-store.ts';
import { announcement, history, picture, planFile, terrain } from '../state/store.ts';

/** Bytes at the start of a file that tell whether it is one for out of doors. */
const HEAD_BYTES = 64;
/** How far around a plan the picture goes where the ground goes further, m. */
const PICTURE_MARGIN: Metres = 300;

/** Hands the browser one file with everything that the plan needs out of doors; said is what is not in it. */
export async function takeToField(): Promise<void> {
  if (bundling.value) return;
  bundling.value = true;
  try {
    const { MOST_HEIGHTS, MOST_PICTURE_PIXELS, missingInBundle, writeBundle } = await bundles();
    const { linesOf } = await import('../../report/exchange/lines-to-take.ts');
    const plan = history.value.present;
    const lines = linesOf(plan);
    const taken = lines.length === 0 ? null : await terrain.value?.takeHeights({ lines, mostBytes: MOST_HEIGHTS });
    const heights = taken?.ok
      ? taken.value.files.map(({ bytes, record }): BundledHeights => ({ name: record.name, bytes, record }))
      : [];
    const margin = taken?.ok ? taken.value.margin : null;
    const wish = { around: lines.flat(), margin: Math.min(margin ?? PICTURE_MARGIN, PICTURE_MARGIN) };
    const part = await picture.value?.take({ ...wish, mostPixels: MOST_PICTURE_PIXELS });
    const bundle: FieldBundle = {
      plan,
      asTaken: baseOf(plan),
      heights,
      margin,
      picture: part ? pictureOf(part) : null,
    };
    const name = `${safeFileName(plan.name, 'plan')}-field.zip`;
    download(writeBundle(bundle), { name, type: 'application/zip' });
    const refused = taken?.ok === false ? taken.problems.map(({ found }) => `no elevation: ${found}`) : [];
    const missing = missingInBundle(bundle).filter((each) => refused.length === 0 || !each.startsWith('no elevation'));
    fieldNote.value = { file: name, made: true, missing: [...refused, ...missing] };
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    fieldNote.value = { file: 'Nothing', made: true, missing: [`the file could not be made: ${found}`] };
  } finally {
    bundling.value = false;
  }
}

const bundles = () => import('../../report/exchange/field-bundle.ts');

function pictureOf(part: { readonly jpeg: ArrayBuffer; readonly world: string; readonly crs: number }): BundledPicture {
  return {
    files: [
      { name: 'picture.jpg', bytes: new Uint8Array(part.jpeg) },
      { name: 'picture.jgw', bytes: new TextEncoder().encode(part.world) },
    ],
    crs: part.crs,
  };
}

/** Whether a file is one for out of doors: an archive of elevation is another. */
export async function isBundle(file: File): Promise<boolean> {
  if (!/\.zip$/i.test(file.name)) return false;
  const { looksLikeBundle } = await bundles();
  return looksLikeBundle(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
}

async function bundleIn(file: File): Promise<Outcome<FieldBundle>> {
  const { readBundle } = await bundles();
  return readBundle(file.name, new Uint8Array(await file.arrayBuffer()));
}

/** Opens plan, ground and picture of a file for out of doors; says what is not in it. */
export async function openBundle(file: File): Promise<void> {
  const read = await bundleIn(file);
  if (!read.ok) {
    planFile.value = { kind: 'refused', names: [file.name], problems: read.problems };
    return;
  }
  const bundle = read.value;
  startWith(bundle.plan, false);
  rememberBase(bundle.asTaken);
  const { missingInBundle } = await bundles();
  fieldNote.value = { file: file.name, made: false, missing: missingInBundle(bundle) };
  await Promise.all([openHeights(bundle), openPicture(bundle)]);
}

async function openHeights({ plan, heights }: FieldBundle): Promise<void> {
  if (heights.length === 0) return;
  const files = heights.map(({ name, bytes }) => new File([bytes], name));
  const recorded = Object.fromEntries(heights.map(({ name, record }) => [name, record]));
  const references = plan.terrain?.files ?? heights.map(({ record }) => record.name);
  const from = { recorded, references };
  rememberTakenFrom(files, from);
  await openTerrainFiles(files, {}, from);
}

async function openPicture({ picture: brought }: FieldBundle): Promise<void> {
  if (brought === null) return;
  const files = brought.files.map(({ name, bytes }) => new File([bytes], name));
  const [first] = brought.files;
  await openPictureFiles(files, first ? { [first.name]: { crs: brought.crs } } : {});
}

/** Where the plan as it was taken along outlives the page: what comes back is told from it. */
const BASE_KEY = 'rillwright-taken-as';

function rememberBase(plan: Plan): void {
  takenAs.value = plan;
  try {
    localStorage.setItem(BASE_KEY, writePlan(plan));
  } catch {
    // Without it the plan that comes back is compared with the one at home.
  }
}

/** The plan as it was taken along, if this is still that plan; else the plan itself, which is now taken along. */
function baseOf(plan: Plan): Plan {
  const base = takenAs.value ?? rememberedBase();
  const sameStock = base?.points.some(({ id, role, position }) =>
    plan.points.some(
      (p) => p.id === id && p.role === role && p.position.lon === position.lon && p.position.lat === position.lat,
    ),
  );
  return base !== null && sameStock ? base : plan;
}

function rememberedBase(): Plan | null {
  try {
    const read = readPlan(localStorage.getItem(BASE_KEY) ?? '', handbookRows);
    return read.ok ? read.value : null;
  } catch {
    return null;
  }
}

/** Reads what came back and shows what was changed; nothing of the plan changes yet. */
export async function lookAtReturned(file: File): Promise<void> {
  const home = history.value.present;
  const read = (await isBundle(file)) ? await bundleIn(file) : readPlan(await file.text(), handbookRows);
  if (!read.ok) {
    merging.value = { kind: 'refused', file: file.name, problems: read.problems };
    return;
  }
  const { value } = read;
  const back = 'heights' in value ? { asTaken: value.asTaken, plan: value.plan } : { asTaken: home, plan: value };
  const changes = fieldChanges(home, back);
  // What was changed at home, too, is left unless somebody says otherwise.
  const chosen = new Set(changes.filter(({ clash }) => !clash).map(({ key }) => key));
  merging.value = { kind: 'choosing', file: file.name, back, changes, chosen, problems: [] };
}

export function chooseChange(key: string, taken: boolean): void {
  const state = merging.value;
  if (state.kind !== 'choosing') return;
  const chosen = new Set(state.chosen);
  if (taken) chosen.add(key);
  else chosen.delete(key);
  merging.value = { ...state, chosen, problems: [] };
}

/** Takes what is chosen as one step; what is wrong with the choice stays beside it. */
export function takeReturned(): void {
  const state = merging.value;
  if (state.kind !== 'choosing') return;
  const taken = state.changes.filter(({ key }) => state.chosen.has(key));
  const problems = edit((present) => takeChanges(present, state.back.plan, taken));
  if (problems.length > 0) merging.value = { ...state, problems };
  else {
    merging.value = { kind: 'idle' };
    announcement.value = `Taken: ${taken.length} of ${state.changes.length} changes`;
  }
}

export function leaveReturned(): void {
  merging.value = { kind: 'idle' };
}

export function hideFieldNote(): void {
  fieldNote.value = null;
}
