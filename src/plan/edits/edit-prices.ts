import type { Plan, Price } from '../model/plan.ts';
import type { Edit } from './edit.ts';
import { finishEdit } from './finish-edit.ts';

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
