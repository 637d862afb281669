import type { Change, ChangeKind } from '../../evaluation/mending/change.ts';
import type { LeftBecause, Remedy } from '../../evaluation/mending/mend.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { findingTitle } from './finding-words.ts';

interface Words {
  readonly about: string;
  readonly number: (name: string, kind: QuantityKind) => string;
  readonly text: (name: string) => string;
}

const SAID: Readonly<Record<ChangeKind, (w: Words) => string>> = {
  'set-intake': (w) => `Tune the waste valve to use ${w.number('flow', 'flow')}`,
  'fewer-pumps': (w) => `Run ${w.number('count', 'count')} of the pumps`,
  'pump-size': (w) => `Use a ${w.text('inches')} in ram with a steel drive pipe of that size`,
  'wider-pipe': (w) => `Use ${w.text('row')} for ${w.about}`,
  'stronger-pipe': (w) => `Use ${w.text('row')} for ${w.about}: it stands the pressure`,
  'steel-drive': (w) => `Use steel for ${w.about}: ${w.text('row')}`,
  'fitting-drive': (w) => `Use ${w.text('row')} for ${w.about}: it fits the pump`,
  'deeper-trench': (w) => `Lay ${w.about} ${w.number('depth', 'height')} deep`,
  vent: (w) => `Fit vents at the high points of ${w.about}`,
  'raise-outlet': (w) => `Raise the outlet at ${w.about} by ${w.number('by', 'height')}`,
  'taller-standpipe': (w) => `Make ${w.about} ${w.number('by', 'height')} taller`,
  'lower-inlet': (w) => `Set the inlet of ${w.about} ${w.number('by', 'height')} lower`,
  'move-standpipe': (w) => `Move ${w.about} to ${w.number('length', 'length')} of drive pipe from the pump`,
  'valve-weight': (w) =>
    w.number('head', 'height') === ''
      ? 'Leave the weight of the waste valve to be tuned when it runs'
      : `Make the waste valve so heavy that ${w.number('head', 'height')} of water holds it`,
  'larger-tank': (w) => `Choose a tank of ${w.number('volume', 'volume')} for ${w.about}`,
  'larger-trough': (w) => `Choose a trough of ${w.number('volume', 'volume')} for ${w.about}`,
  'raise-waste-valve': (w) => `Set the waste valve of ${w.about} ${w.number('by', 'height')} higher`,
  'air-chamber': (w) => `Fit an air chamber of ${w.number('volume', 'volume')}`,
};

/** A change in the imperative, without a full stop. */
export function changeWords({ kind, about, facts }: Change, plan: Plan, units: UnitSystem): string {
  return SAID[kind]({
    about: nameOf(plan, about),
    number: (name, quantity) => {
      const value = facts[name];
      return typeof value === 'number' ? writeQuantity(value, quantity, units) : '';
    },
    text: (name) => String(facts[name] ?? ''),
  });
}

/** A remedy in one sentence: what is done, and what it mends. */
export function remedyWords({ changes, finding }: Remedy, plan: Plan, units: UnitSystem): string {
  const [first = '', ...others] = changes.map((each) => changeWords(each, plan, units));
  const rest = others.map((each) => ` and ${each.charAt(0).toLowerCase()}${each.slice(1)}`).join('');
  return `${first}${rest}: ${findingTitle(finding)}.`;
}

/** Why a finding was left as it is. */
export const LEFT_WORDS: Readonly<Record<LeftBecause, string>> = {
  'another-place': 'only another place puts it right',
  'to-be-measured': 'it must be checked on site',
  'breaks-another': 'every change that would put it right spoils something else',
};
