import type { Evaluation, MeasureFirst } from '../evaluation/evaluation.ts';
import type { FindingCode } from '../evaluation/findings/catalogue.ts';
import type { UnitSystem } from '../units/kind.ts';
import { writeQuantity, writeRange } from '../units/write-quantity.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Share of the delivery's doubt from which on it is worth a word. */
const TELLING_SHARE = 0.1;

/** Delivery a day to the place that most depends on what is measured, as a range; null where nothing arrives yet. */
function deliveryUntilThen(evaluation: Evaluation, item: MeasureFirst, units: UnitSystem): string | null {
  const own = evaluation.tanks.find((t) => t.id === item.about || t.line?.route === item.about);
  const per = (own ?? evaluation.tanks.find((t) => t.line?.deliveryPerDay))?.line?.deliveryPerDay ?? null;
  return per && writeRange(per.low, per.high, 'daily-volume', units);
}

/** Why something is worth measuring: which questions it settles, and what the delivery may be until then. */
export function measureReason(item: MeasureFirst, evaluation: Evaluation, units: UnitSystem): string {
  const settled = item.settles.map((code) => FINDING_TEXTS[code as FindingCode].title.toLowerCase());
  const parts = settled.length > 0 ? [`Settles: ${settled.join('; ')}.`] : [];
  if (item.share >= TELLING_SHARE && item.expected !== null) {
    parts.push(`${writeQuantity(item.share, 'share', units)} of the doubt about the delivery comes from it.`);
    const delivery = deliveryUntilThen(evaluation, item, units);
    if (delivery !== null) parts.push(`Until then the delivery is anywhere from ${delivery}.`);
  }
  return parts.join(' ');
}
