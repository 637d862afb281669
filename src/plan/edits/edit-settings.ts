import type { Plan } from '../model/plan.ts';
import type { Edit, EditLabel } from './edit.ts';
import { finishEdit } from './finish-edit.ts';
import { withChanges } from './with-changes.ts';

export type SettingChanges = Partial<
  Pick<
    Plan,
    | 'name'
    | 'units'
    | 'waterTemperature'
    | 'dryShare'
    | 'leftInStream'
    | 'confidence'
    | 'terrain'
    | 'year'
    | 'materials'
    | 'mapTiles'
  >
>;

/** Changes settings of the whole plan: name, units shown, water temperature, shares, confidence, terrain. */
export function changeSettings(plan: Plan, changes: SettingChanges): Edit {
  return finishEdit(plan, withChanges<Plan>(plan, changes), labelOf(changes));
}

/** The changes made most have names of their own in the list of steps. */
function labelOf({ name, ...others }: SettingChanges): EditLabel {
  const [only, ...more] = Object.keys(others);
  if (name !== undefined && only === undefined) return { code: 'name-plan', name };
  return {
    code: name === undefined && only === 'units' && more.length === 0 ? 'set-units' : 'change-settings',
    name: '',
  };
}

/** Puts another plan in the place of this one, such as an opened file; one step to undo. */
export function replacePlan(plan: Plan, next: Plan): Edit {
  return finishEdit(plan, next, { code: 'replace-plan', name: next.name });
}
