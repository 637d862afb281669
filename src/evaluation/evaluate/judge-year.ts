import { type Judged, judge } from '../findings/finding.ts';
import type { TankYear } from '../result/evaluation.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { spreadOf } from '../statistics/compare.ts';

/** Less than half a day is none. */
const NO_DAY = 0.5;

/** Days in a year on which the herd at a tank gets less than it wants; nothing of a tank that is set aside. */
export function judgeYear(system: SolvedSystem | null, years: readonly TankYear[]): Judged[] {
  if (system === null) return [];
  const { plan } = system.site;
  const aside = new Set(plan.points.filter((p) => p.role === 'tank' && p.standing === 'set-aside').map(({ id }) => id));
  return years.flatMap(({ id, months, daysShort }) => {
    if (aside.has(id)) return [];
    const most = Math.max(...months.map((m) => m.daysShort));
    const worst = months.findIndex((m) => m.daysShort === most);
    const missing = months.reduce((sum, m) => sum + m.shortfall, 0);
    const facts = most > 0 ? { month: `month-${worst + 1}`, missing } : {};
    const index = system.model.destinations.findIndex((d) => d.id === id);
    const output = system.layout.destination(index, 'delivery');
    const spread = spreadOf(daysShort);
    return [judge('year-short', plan.confidence, { about: id, spread, limit: NO_DAY, output, facts })];
  });
}
