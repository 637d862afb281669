import { criterion } from '../../handbook/practice-criteria.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import { Z90, Z975 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import type { PumpBehaviour } from './pump-behaviour.ts';
import type { RunLimits } from './system-model.ts';

/** A limit of a waste valve goes with its weight and its losses. */
const VALVE_DEVIATION: Ratio = TOLERANCES.valve.value / Z975;

/**
 * Delivery head over fall that lets a waste valve fall open again, where nothing is known of it: enough at the planning rule,
 * seen to run at the least published, likely in between. Two half normal distributions, never above the rule.
 */
export function pushBackRatio(off: Ratio): Ratio {
  const [enough, likely, least] = [
    criterion('back-pressure-ratio-least').value,
    criterion('back-pressure-ratio-likely').value,
    criterion('back-pressure-ratio-seen').value,
  ];
  const reach = off < 0 ? likely - least : enough - likely;
  return Math.min(enough, Math.max(1, likely + (off / Z90) * reach));
}

/** What lets a pump beat: its own model, its sheet, else the rules for any. */
export function runLimits({ modelled, leastDeliveryHead }: PumpBehaviour): RunLimits {
  const around = (likely: Metres, off: Ratio) => likely * Math.max(0, 1 + VALVE_DEVIATION * off);
  if (modelled !== null) {
    const { leastFall, leastHead } = modelled;
    return { leastFall: (off) => around(leastFall, off), leastPushBack: (_, off) => around(leastHead, off) };
  }
  return {
    leastFall: () => criterion('fall-least').value,
    leastPushBack: (fall, off) =>
      Math.max(leastDeliveryHead ?? 0, leastDeliveryHead === null ? fall * pushBackRatio(off) : 0),
  };
}
