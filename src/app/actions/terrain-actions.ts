import { batch } from '@preact/signals';
import { likelyGround } from '../../evaluation/evaluate/likely-ground.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import { changeSettings } from '../../plan/edits/edit-settings.ts';
import { refusalSentence } from '../../report/words/refusal-words.ts';
import type { Problem } from '../../units/outcome.ts';
import type { FileAnswers, Progress } from '../../worker/messages.ts';
import { type ElevationInput, referenceOfInput } from '../client/elevation-input.ts';
import { Reckoner, sameGrounded } from '../client/evaluator.ts';
import type { PlanGround } from '../client/ground-cache.ts';
import { type GroundedPlan, GroundFeed } from '../client/ground-feed.ts';
import { type OpenedPicture, openPicture, withOtherHalf } from '../client/picture-client.ts';
import { forgetUnits, rememberUnits, withRememberedUnits } from '../client/remembered-units.ts';
import { type TakenFrom, takenFrom } from '../client/taken-from.ts';
import { type Opening, openTerrain } from '../client/terrain-client.ts';
import { WorkerRefusal } from '../client/worker-calls.ts';
import { openedFrom } from '../state/address-state.ts';
import { apart, otherGround, strayPicture } from '../state/ground-match.ts';
import {
  evaluation,
  type FileState,
  groundBusy,
  grounded,
  groundFailure,
  history,
  picture,
  pictureFile,
  plan,
  terrain,
  terrainFile,
} from '../state/store.ts';
import { edit } from './edit-actions.ts';

let feed: GroundFeed | null = null;
let reckoner: Reckoner | null = null;

/** What is under way between a plan and its answer: ground being read, answers being drawn. */
const busy = { reading: false, reckonings: 0 };

function tellBusy(change: Partial<typeof busy> = {}): void {
  Object.assign(busy, change);
  groundBusy.value = busy.reading || busy.reckonings > 0;
}

function tellGroundFailure(error: unknown): void {
  if (error instanceof WorkerRefusal) groundFailure.value = withoutStop(refusalSentence(error.problem));
  else groundFailure.value = error instanceof Error ? error.message : String(error);
}

function withoutStop(sentence: string): string {
  return sentence.replace(/\.$/, '');
}

/** Opens elevation files; the terrain at hand stays until the new one is ready, and for good when it is refused. */
export async function openTerrainFiles(
  files: readonly ElevationInput[],
  answers: FileAnswers = {},
  from: TakenFrom | null = takenFrom(files),
): Promise<boolean> {
  const opened = await opening(terrainFile, { files, answers }, async (options) =>
    openTerrain(files, await withRememberedUnits(files, answers), {
      ...options,
      ...(from && { recorded: from.recorded }),
    }),
  );
  if (opened === null) return false;
  shown = files;
  const references = from?.references ?? files.map(referenceOfInput);
  atHand.set(references.join('\n'), { files, answers, from });
  changing = true;
  openedFrom.value = references;
  terrain.value?.close();
  terrain.value = opened;
  feed?.close();
  reckoner?.close();
  const reckoning = new Reckoner(opened, (next) =>
    batch(() => {
      grounded.value = next.grounded;
      groundFailure.value = null;
      evaluation.value = next.evaluation;
    }),
  );
  reckoner = reckoning;
  let before: { readonly asked: GroundedPlan; readonly likely: PlanGround } | null = null;
  feed = new GroundFeed(opened, {
    onGround: ({ plan: followed, ground }) => {
      const asked = { plan: followed, ground };
      const known = before !== null && sameGrounded(before.asked, asked) ? before.likely : null;
      const likely = known ?? likelyGround(followed, ground, accuracyFor(followed, opened.about));
      before = { asked, likely };
      const next = { plan: followed, ground: likely };
      busy.reckonings += 1;
      reckoning
        .reckon(next, { dragging: history.value.draft !== null })
        .catch(tellGroundFailure)
        .finally(() => tellBusy({ reckonings: busy.reckonings - 1 }));
      tellBusy();
    },
    onBusy: (reading) => tellBusy({ reading }),
    onFailed: tellGroundFailure,
  });
  rememberTerrain(openedFrom.value);
  changing = false;
  feed.follow(plan.value);
  await rememberUnits(files, answers);
  return true;
}

/** Files that were opened on this page, by how a plan remembers them: undoing the choice of a file opens the one before. */
interface AtHand {
  readonly files: readonly ElevationInput[];
  readonly answers: FileAnswers;
  readonly from: TakenFrom | null;
}

const atHand = new Map<string, AtHand>();
/** While the plan is told of the files that were just opened. */
let changing = false;

/** Whether the files that a plan names can be opened again without asking for them. */
export function isAtHand(references: readonly string[]): boolean {
  return atHand.has(references.join('\n'));
}

/** Opens the files that a plan names where they were open on this page before. */
export async function openAtHand(references: readonly string[]): Promise<void> {
  const before = atHand.get(references.join('\n'));
  if (before !== undefined) await openTerrainFiles(before.files, before.answers, before.from);
}

/** Follows a step back or forth over the choice of an elevation file. */
export function followGroundOfPlan(): void {
  const named = otherGround.value;
  if (named === null || changing || terrainFile.peek().kind !== 'idle') return;
  if (isAtHand(named)) void openAtHand(named);
}

/** Takes the ground that is open for that of the plan. */
export function useOpenGround(): void {
  rememberTerrain(openedFrom.value);
}

/** Lets ground and picture go. */
export function closeGround(): void {
  cancelOpening(terrainFile.value);
  cancelOpening(pictureFile.value);
  feed?.close();
  reckoner?.close();
  terrain.value?.close();
  picture.value?.close();
  strayPicture.value?.opened.close();
  feed = null;
  reckoner = null;
  shown = [];
  batch(() => {
    terrain.value = null;
    picture.value = null;
    strayPicture.value = null;
    openedFrom.value = [];
    grounded.value = null;
    evaluation.value = null;
    groundFailure.value = null;
    tellBusy({ reading: false });
  });
}

/** The files that are shown. */
let shown: readonly ElevationInput[] = [];

/** Opens the files that are shown once more and asks for the unit of their heights again. */
export async function askUnitsAgain(): Promise<void> {
  await forgetUnits(shown);
  await openTerrainFiles(shown);
}

/** Opens files again with what the user said about them. */
export function answerQuestions(asked: Extract<FileState, { kind: 'question' }>, said: FileAnswers): Promise<boolean> {
  const names = new Set([...Object.keys(asked.answers), ...Object.keys(said)]);
  const answers = Object.fromEntries([...names].map((name) => [name, { ...asked.answers[name], ...said[name] }]));
  if (pictureFile.value !== asked) return openTerrainFiles(asked.files, answers);
  return openPictureFiles(
    asked.files.filter((file) => file instanceof File),
    answers,
  );
}

/** Tells the feed of every plan that is shown. The plan is read first: an effect must depend on it before there is a feed. */
export function followPlan(): void {
  const shown = plan.value;
  feed?.follow(shown);
}

/** Writes in the plan which files it was made on, or the addresses where they lie. */
function rememberTerrain(files: readonly string[]): void {
  const { terrain: known } = history.value.present;
  if (known !== null && known.files.join('\n') === files.join('\n')) return;
  edit((present) =>
    changeSettings(present, {
      terrain: { files, accuracy: present.terrain?.accuracy ?? null, constants: present.terrain?.constants ?? null },
    }),
  );
}

/** What was brought of a picture whose other half is awaited: the picture alone, or its world file alone. */
let half: readonly File[] = [];

/** Opens a picture, or one half of it: what was brought before is put to what comes now. */
export async function openPictureFiles(brought: readonly File[], answers: FileAnswers = {}): Promise<boolean> {
  const files = withOtherHalf(half, brought);
  const opened = await opening(pictureFile, { files, answers }, (options) =>
    openPicture(files, { ...options, answers }),
  );
  const { value: state } = pictureFile;
  half = state.kind === 'refused' && state.problems.some(({ code }) => code === 'picture-half') ? files : [];
  if (opened === null) return false;
  const off = terrain.value === null ? null : apart(terrain.value.about.outline, opened.about.outline);
  strayPicture.value?.opened.close();
  strayPicture.value = null;
  // A picture of another place does not take that of this one away unasked.
  if (off !== null && off > 0) strayPicture.value = { opened, off, files };
  else showPicture(opened);
  return true;
}

function showPicture(opened: OpenedPicture): void {
  picture.value?.close();
  picture.value = opened;
}

/** Shows the picture that lies elsewhere after all. */
export function takeStrayPicture(): void {
  const stray = strayPicture.value;
  strayPicture.value = null;
  if (stray !== null) showPicture(stray.opened);
}

/** Leaves the picture that lies elsewhere; what was shown stays. */
export function leaveStrayPicture(): void {
  strayPicture.value?.opened.close();
  strayPicture.value = null;
}

interface Watching {
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Progress) => void;
}

/** Runs one opening with its progress, its cancel button, its questions and its refusal. */
async function opening<T>(
  state: { value: FileState },
  { files, answers }: { readonly files: readonly ElevationInput[]; readonly answers: FileAnswers },
  open: (watching: Watching) => Promise<Opening<T>>,
): Promise<T | null> {
  if (state.value.kind === 'opening') state.value.stop.abort();
  const stop = new AbortController();
  state.value = { kind: 'opening', files, progress: null, stop };
  const current = () => state.value.kind === 'opening' && state.value.stop === stop;
  try {
    const result = await open({
      signal: stop.signal,
      onProgress: (progress) => {
        if (current()) state.value = { kind: 'opening', files, progress, stop };
      },
    });
    if (current()) state.value = afterOpening(result, files, answers);
    return result.kind === 'opened' ? result.value : null;
  } catch (error) {
    if (current()) state.value = stop.signal.aborted ? { kind: 'idle' } : refusedBy(error, files);
    return null;
  }
}

function afterOpening(result: Opening<unknown>, files: readonly ElevationInput[], answers: FileAnswers): FileState {
  switch (result.kind) {
    case 'opened':
      return { kind: 'idle' };
    case 'question':
      return { kind: 'question', files, answers, questions: result.questions };
    case 'refused':
      return { kind: 'refused', names: namesOf(files), problems: result.problems };
  }
}

function refusedBy(error: unknown, files: readonly ElevationInput[]): FileState {
  const problem: Problem = {
    code: 'unreadable',
    path: files[0]?.name ?? '',
    found: error instanceof Error ? error.message : String(error),
    expected: 'a file that can be read to its end',
  };
  return { kind: 'refused', names: namesOf(files), problems: [problem] };
}

function namesOf(files: readonly ElevationInput[]): readonly string[] {
  return files.map((file) => file.name);
}

export function cancelOpening(state: FileState): void {
  if (state.kind === 'opening') state.stop.abort();
}

export function hideTerrainRefusal(): void {
  terrainFile.value = { kind: 'idle' };
}

export function hidePictureRefusal(): void {
  pictureFile.value = { kind: 'idle' };
}
