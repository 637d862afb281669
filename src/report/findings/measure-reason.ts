import type { FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { Evaluation, MeasureFirst, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Share of the delivery's doubt from which on it is worth a word. */
const TELLING_SHARE = 0.1;

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
  const settled = item.settles.map((code) => FINDING_TEXTS[code as FindingCode].title.toLowerCase());
  const parts = settled.length > 0 ? [`Settles: ${settled.join('; ')}.`] : [];
  if (item.share >= TELLING_SHARE && item.expected !== null) {
    parts.push(`${writeQuantity(item.share, 'share', units)} of the doubt about the delivery comes from it.`);
    const tank = tankOf(evaluation, item);
    const { deliveryPerDay: now, ifRunningPerDay: mended } = tank?.line ?? {};
    const stands = now != null && now.high <= 0;
    const perDay = stands ? mended : now;
    if (tank && perDay) {
      const range = writeRange(perDay.low, perDay.high, 'daily-volume', units);
      const name = nameOf(plan, tank.id);
      parts.push(stands ? `If it ran, ${name} would get ${range}.` : `Until then ${name} gets anything from ${range}.`);
    }
  }
  // Every row says why it is there.
  return parts.length > 0 ? parts.join(' ') : 'Makes the numbers surer.';
}
