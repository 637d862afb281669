import type { FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { Evaluation, MeasureFirst, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Share of the delivery's doubt from which on it is worth a word. */
const TELLING_SHARE = 0.1;

/** Share from which on nothing else can be worth as much. */
const MOST_SHARE = 0.5;

/** The tank that a measurement speaks of: its own, or the one whose open question it settles. */
function tankOf({ tanks, findings }: Evaluation, item: MeasureFirst): TankResult | undefined {
  const open = findings.filter((f) => f.verdict === 'measure' && item.settles.includes(f.code)).map((f) => f.about);
  const named = (tank: TankResult) => [tank.id, tank.line?.route];
  return (
    tanks.find((tank) => named(tank).includes(item.about)) ??
    tanks.find((tank) => named(tank).some((id) => id !== undefined && open.includes(id))) ??
    tanks.find((tank) => tank.line?.deliveryPerDay)
  );
}

/** Why something is worth measuring: which questions it settles, and what the delivery may be until then. */
export function measureReason(item: MeasureFirst, evaluation: Evaluation, plan: Plan, units: UnitSystem): string {
  const titles = item.settles.map((code) => FINDING_TEXTS[code as FindingCode].title);
  const settled = [...new Set(titles)].map((title) => title.charAt(0).toLowerCase() + title.slice(1));
  const parts = settled.length > 0 ? [`Settles: ${settled.join('; ')}.`] : [];
  if (item.share >= TELLING_SHARE && item.expected !== null) {
    const worth = item.share >= MOST_SHARE ? 'Worth the most' : 'Worth much';
    parts.push(`${worth}: ${writeQuantity(item.share, 'share', units)} of what is not known about the delivery.`);
    const tank = tankOf(evaluation, item);
    const { deliveryPerDay: now, ifRunningPerDay: mended } = tank?.line ?? {};
    const stands = now != null && now.high <= 0;
    const perDay = stands ? mended : now;
    if (tank && perDay) {
      const range = writeRange(perDay.low, perDay.high, 'daily-volume', units);
      const name = nameOf(plan, tank.id);
      parts.push(stands ? `If it ran, ${name} would get ${range}.` : `Until then count on ${range} at ${name}.`);
    }
  }
  // Every row says why it is there.
  return parts.length > 0 ? parts.join(' ') : 'Makes the numbers more certain.';
}
