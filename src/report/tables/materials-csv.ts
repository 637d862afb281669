import type { MaterialNeeds } from '../../evaluation/evaluate/materials.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { FOOT_M } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { nameOf } from '../words/measure-words.ts';
import { csvText } from './report-table.ts';

const round = (value: number, digits: number) => Number(value.toFixed(digits));

/** What has to be bought as comma-separated text, lengths in the shown units. */
export function materialsCsv(needs: MaterialNeeds, plan: Plan, units: UnitSystem): string {
  const per = units === 'us' ? FOOT_M : 1;
  const unit = units === 'us' ? 'ft' : 'm';
  const currency = plan.materials.currency;
  const names = (routes: readonly string[]) => routes.map((id) => nameOf(plan, id)).join('; ');
  const money = (cost: number | null) => (cost === null ? null : round(cost, 2));
  return csvText([
    [
      'item',
      `along the ground, ${unit}`,
      `to buy, ${unit}`,
      'packs',
      'pieces',
      `cost${currency === '' ? '' : `, ${currency}`}`,
      'for',
    ],
    ...[...needs.pipes, ...needs.trenches].map((p) => [
      p.label,
      round(p.length / per, 1),
      round(p.toBuy / per, 1),
      p.packs,
      null,
      money(p.cost),
      names(p.routes),
    ]),
    ...needs.pieces.map((p) => [p.label, null, null, null, p.count, money(p.cost), names(p.routes)]),
    [
      'total',
      null,
      null,
      null,
      null,
      money(needs.total),
      needs.unpriced.length > 0 ? 'without what has no price' : null,
    ],
  ]);
}
