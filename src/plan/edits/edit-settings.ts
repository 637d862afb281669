import type { Plan, Price } from '../model/plan.ts';
import { type Edit, type EditLabel, withChanges } from './edit.ts';
import { finishEdit } from './finish-edit.ts';

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

/** Enters what an item costs; an earlier price of the same item gives way to it. */
export function setPrice(plan: Plan, price: Price): Edit {
  const { prices } = plan.materials;
  const index = prices.findIndex(({ item }) => item === price.item);
  const next = index < 0 ? [...prices, price] : prices.with(index, price);
  return withPrices(plan, next);
}

/** Takes the price of an item off the list. */
export function removePrice(plan: Plan, item: string): Edit {
  const prices = plan.materials.prices.filter((price) => price.item !== item);
  return withPrices(plan, prices);
}

function withPrices(plan: Plan, prices: readonly Price[]): Edit {
  return finishEdit(plan, { ...plan, materials: { ...plan.materials, prices } }, { code: 'set-prices', name: '' });
}
