import type { Metres, Ratio } from '../../units/quantity.ts';

/** Delivery heads at which an efficiency is worked out lie so far apart in the logarithm: 2 %. */
const STEP = 0.02;

/**
 * An efficiency over the delivery head, straight between heads 2 % apart; each is worked out when it is first asked for. What many
 * lines ask of one state of a ram then costs about as much as what one asks. Where the ram does not run at one end of such a piece,
 * the head itself is worked out, so that it stops exactly where it stops.
 */
export function overHeads(efficiencyAt: (head: Metres) => Ratio, fall: Metres): (head: Metres) => Ratio {
  const known: (Ratio | undefined)[] = [];
  const at = (step: number): Ratio => {
    const found = known[step] ?? efficiencyAt(fall * Math.exp(step * STEP));
    known[step] = found;
    return found;
  };
  return (head) => {
    if (!(fall > 0 && head > fall)) return efficiencyAt(head);
    const place = Math.log(head / fall) / STEP;
    const step = Math.floor(place);
    if (step === 0) return efficiencyAt(head);
    const low = at(step);
    const high = at(step + 1);
    return low > 0 && high > 0 ? low + (high - low) * (place - step) : efficiencyAt(head);
  };
}
