import type { EditCode, EditLabel } from '../../plan/edits/edit.ts';
import { type History, stepsTaken } from '../../plan/edits/history.ts';

const STEPS: Readonly<Record<EditCode, string>> = {
  'add-point': 'place',
  'move-point': 'move',
  'remove-point': 'delete',
  'rename-point': 'rename',
  'change-point': 'change',
  'set-standing': 'choose or rule out',
  'add-route': 'draw',
  'remove-route': 'delete',
  'change-route': 'change',
  'draw-route': 'redraw',
  'move-vertex': 'bend',
  'insert-vertex': 'add a bend in',
  'delete-vertex': 'remove a bend from',
  'set-pipe': 'change the pipe of',
  'set-fittings': 'change the fittings of',
  'set-trench': 'change the trench of',
  'set-pump': 'choose the pump',
  'set-herd': 'change the animals',
  'set-readings': 'change the readings of the source',
  'set-prices': 'change the prices',
  'set-year': 'change the year',
  'set-records': 'change the records of the pump',
  'set-measurement': 'enter a measured height of',
  'remove-measurement': 'remove the measured height of',
  'change-settings': 'change the settings',
  'name-plan': 'name the plan',
  'set-units': 'show other units',
  'add-area': 'draw',
  'change-area': 'change',
  'remove-area': 'delete',
  'take-remedy': 'do:',
  'import-items': 'import',
  'take-changes': 'take what came back',
  'replace-plan': 'open',
};

/** Whether a word is the name of a kind of step. */
export function isEditCode(code: string): code is EditCode {
  return Object.hasOwn(STEPS, code);
}

/** What a step did, such as “move Tank 2”. */
export function stepWords({ code, name }: EditLabel): string {
  return name === '' ? STEPS[code] : `${STEPS[code]} ${name}`;
}

/** A line of the list of steps: what the plan is after it, and whether it is done, undone, or the one that led here. */
export interface ListedStep {
  /** Steps taken once this one is done. */
  readonly steps: number;
  readonly words: string;
  readonly standing: 'done' | 'now' | 'undone';
}

/** Every step that can be gone back or forward to, oldest first, begun by the plan before all of them. */
export function listedSteps(history: History): readonly ListedStep[] {
  const words = ['before these steps', ...[...history.past, ...history.future].map(({ label }) => stepWords(label))];
  const now = stepsTaken(history);
  return words.map((each, steps) => ({
    steps,
    words: each,
    standing: steps === now ? 'now' : steps < now ? 'done' : 'undone',
  }));
}
