import { computed, signal } from '@preact/signals';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { type History, shownPlan, startHistory } from '../../plan/edits/history.ts';
import { emptyPlan } from '../../plan/model/empty-plan.ts';
import type { Plan, PointId } from '../../plan/model/plan.ts';
import { dragNoteOf } from '../../report/words/pointer-words.ts';
import type { Problem } from '../../units/outcome.ts';
import type { FileAnswers, FileQuestion, Progress } from '../../worker/messages.ts';
import type { ElevationInput } from '../client/elevation-input.ts';
import type { GroundedPlan } from '../client/ground-feed.ts';
import type { OpenedPicture } from '../client/picture-client.ts';
import type { OpenedTerrain } from '../client/terrain-client.ts';
import { unitsOf } from './browser-units.ts';
import type { MapLook, MapSelection, MapTheme, MapTool, RouteCursor } from './map-view-props.ts';

/** What is going on with a file: opening it, a question about it, or why it was refused. */
export type FileState =
  | { readonly kind: 'idle' }
  | {
      readonly kind: 'opening';
      readonly files: readonly ElevationInput[];
      readonly progress: Progress | null;
      readonly stop: AbortController;
    }
  | {
      readonly kind: 'question';
      readonly files: readonly ElevationInput[];
      readonly questions: readonly FileQuestion[];
      /** What was said about these files before; one answer can lead to the next question. */
      readonly answers: FileAnswers;
    }
  | { readonly kind: 'refused'; readonly names: readonly string[]; readonly problems: readonly Problem[] };

export type PanelName = 'course' | 'answer' | 'selected' | 'inputs' | 'jobs' | 'profile';

/** The first opening is in the units of the browser's language; from then on in those that are chosen. */
export const firstUnits = unitsOf(typeof document === 'undefined' ? [] : navigator.languages);
const start = startHistory(emptyPlan({ name: 'New plan', units: firstUnits }));

/** All state of the page. Views read it; only actions write it. */
export const history = signal<History>(start);
/** The plan to show: as a drag has it at the moment, else as the last step left it. */
export const plan = computed<Plan>(() => shownPlan(history.value));
/** The plan as it was last saved or opened. */
export const savedPlan = signal<Plan>(start.present);
export const unsaved = computed(() => history.value.present !== savedPlan.value);
/** Counts the plans that were opened or begun: the map fits each anew. */
export const plansOpened = signal(0);
/** Whether the plan is the invented one that the planner brings along. */
export const demo = signal(false);

export const terrain = signal<OpenedTerrain | null>(null);
export const terrainFile = signal<FileState>({ kind: 'idle' });
export const picture = signal<OpenedPicture | null>(null);
export const pictureFile = signal<FileState>({ kind: 'idle' });
export const planFile = signal<FileState>({ kind: 'idle' });

/** The newest plan whose ground is known, with its ground. */
export const grounded = signal<GroundedPlan | null>(null);
export const groundBusy = signal(false);
export const groundFailure = signal<string | null>(null);
export const evaluation = signal<Evaluation | null>(null);

export const tool = signal<MapTool>('select');
export const selection = signal<MapSelection | null>(null);
export const cursor = signal<RouteCursor | null>(null);
/** The point that is being dragged. */
export const dragged = signal<PointId | null>(null);
/** What is said beside the pointer while something is placed. */
export const placingNote = signal<string | null>(null);
/** What is said beside the pointer: of what is dragged, else of what is placed. */
export const pointerNote = computed<string | null>(() => {
  const id = dragged.value;
  if (id === null || evaluation.value === null) return placingNote.value;
  return dragNoteOf(id, evaluation.value, plan.value.units);
});
export const readout = signal<readonly string[] | null>(null);
/** Water path that the profile shows; null picks the one that suits the selection. */
export const chosenWay = signal<string | null>(null);

export const theme = signal<MapTheme>('light');
export const hillshade = signal(0.6);
export const pictureStrength = signal(0.7);
export const contours = signal(true);
export const slopes = signal(false);
/** Read apart from the plan, so that an edit of the plan is no change of the map's look. */
const shownUnits = computed(() => plan.value.units);
export const look = computed<MapLook>(() => ({
  hillshade: hillshade.value,
  contours: contours.value,
  slopes: slopes.value,
  picture: pictureStrength.value,
  theme: theme.value,
  units: shownUnits.value,
}));

export const panel = signal<PanelName>('answer');
export const profileHeight = signal(310);
export const profileOpen = signal(true);
export const helpOpen = signal(false);
/** Words for the screen reader about what just happened. */
export const announcement = signal('');
/** What an edit was refused for, when no field is there to show it. */
export const refusal = signal<readonly Problem[]>([]);
