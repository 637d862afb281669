import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { RemedyFacts } from '../ranking/remedy.ts';

const PERCENT = 100;
const THOUSANDTH = 1e-3;

/** What to do about a cause, with its number. */
export function remedyWords(facts: RemedyFacts, units: UnitSystem): string {
  return WORDS[facts.code](facts, wordsFor(units));
}

interface Writer {
  flow(value: number): string;
  height(value: number): string;
  volume(value: number): string;
  share(value: number): string;
  weight(value: number): string;
  readonly units: UnitSystem;
}

function wordsFor(units: UnitSystem): Writer {
  return {
    units,
    flow: (value) => writeQuantity(value, 'flow', units),
    height: (value) => writeQuantity(value, 'height', units),
    volume: (value) => writeQuantity(value, 'volume', units),
    share: (value) => `${Number((PERCENT * value).toPrecision(2))} %`,
    weight: (value) => writeQuantity(value, 'mass', units),
  };
}

type Words = (facts: RemedyFacts, write: Writer) => string;

const WORDS: Readonly<Record<RemedyFacts['code'], Words>> = {
  healthy: () => 'Leave it as it is, and keep these readings as a record.',
  'level-sunk': ({ seen, leastFall, fall }, w) =>
    `Bring the water at the drive pipe back to ${w.height(fall)} over the waste valve${seen === null ? '' : ` (it is likely at ${w.height(seen)})`}: clean the supply, let its air out, or let the ram take less than the source gives. Below ${w.height(leastFall)} its waste valve stays open and pours.`,
  'valve-heavy': ({ severity, limit, weight, deliveryMore, wasteMore }, w) => {
    const take = `Take the weight of the waste valve down to ${w.share(1 / severity)} of what it is now (about ${w.weight(weight)} less, if its plate is as wide as the drive pipe), or shorten its stroke.`;
    const stuck = limit === null ? '' : ` At ${times(limit)} its usual weight it stays open and pours.`;
    return `${take}${moreWords(deliveryMore, wasteMore, w)}${stuck}`;
  },
  'valve-light': ({ severity, weight, deliveryMore, wasteMore }, w) =>
    `Bring the weight of the waste valve up to ${times(1 / severity)} what it is now (about ${w.weight(weight)} more, if its plate is as wide as the drive pipe), or lengthen its stroke; if the source is short, leave it: it makes better use of the water.${moreWords(deliveryMore, wasteMore, w)}`,
  'seat-leak': ({ severity, limit, seen }, w) =>
    `Clean the seat of the waste valve, or put in a new rubber: about ${w.share(severity)} of the open valve leaks${seen === null ? '' : `, ${w.flow(seen)} at rest`}${edge(limit, w)}.`,
  'body-leak': ({ severity, limit, seen }, w) =>
    `Tighten the body and look at the snifter: about ${w.share(severity)} of the open waste valve leaks there${seen === null ? '' : `, ${w.flow(seen)} at rest`}${edge(limit, w)}.`,
  'check-leak': ({ severity, limit, seen }, w) =>
    `Put a new rubber into the check valve and clean its seat: about ${w.share(severity)} of it leaks back${seen === null ? '' : `, ${w.flow(seen)} into the opened body`}${edge(limit, w)}.`,
  'check-slow': ({ severity }) =>
    `Let the check valve shut sooner: it is about ${Math.round(severity / THOUSANDTH)} ms late. Shorten its lift, put in a stiffer or new rubber, clear what holds it.`,
  'air-in-water': ({ severity }, w) =>
    `Keep air out of the drive pipe: put more water over its inlet, stop the fall of water into the standpipe, tighten the joints. About ${w.share(severity)} of the water is air.`,
  'air-pocket': ({ seen }, w) =>
    `Flush: hold the waste valve down for a minute${seen === null ? '' : ` (about ${w.volume(seen)} of air sits under it)`}, then count the beats again. If it comes back, cover the inlet and tighten the joints.`,
  'chamber-empty': ({ seen, severity }, w) =>
    `Drain the air chamber and let air in, then clear the snifter: ${seen === null ? 'hardly any air' : `about ${w.volume(seen)} of air (${w.share(severity)})`} is left.`,
  'strainer-clogged': ({ severity, limit }) =>
    `Clean the strainer and the inlet: its loss is about ${Math.round(severity)} velocity heads more than it should be${limit === null ? '' : `; it sticks open at ${Math.round(limit)}`}.`,
  'outlet-drowned': ({ seen, limit, fall }, w) =>
    `Let the waste water away${seen === null ? '' : `: about ${w.height(seen)} stands over the waste valve, and its fall is so much less`}${limit === null || limit <= 0 ? '' : `; at ${w.height(limit * fall)} it stays open`}.`,
  'delivery-throttled': ({ seen }, w) =>
    `Open the delivery valve fully, look for a kink, frost or dirt in the line${seen === null ? '' : `: it takes about ${w.height(seen)} of head while it runs`}.`,
  'delivery-summit': ({ seen }, w) =>
    `Let the air out of the high places of the delivery line, or put a vent there${seen === null ? '' : `: it lifts the water by about ${w.height(seen)}`}.`,
  'delivery-leak': ({ seen, severity, friction }, w) =>
    `Walk the delivery line: it loses about ${seen === null || seen <= 0 ? w.share(severity) : w.flow(seen)}. The leak lies below the level at which the gauge settles at rest.${frictionWords(friction, w)}`,
  'no-back-pressure': ({ seen, reopening }, w) =>
    `Fill the delivery line against its shut valve, then open it little by little; throttle until the gauge shows at least ${w.height(reopening.rule)}${seen === null ? '' : ` (it likely has ${w.height(Math.max(0, seen))})`}. Below ${w.height(reopening.unlikelyBelow)} the waste valve hardly opens again. Look for a break, a siphon or a low outlet.`,
  'drive-pipe-soft': ({ seen }) =>
    `Anchor the drive pipe, tighten its joints, and use steel: the pressure wave likely runs at ${seen === null ? 'much less than' : `about ${Math.round(seen / 10) * 10} m/s instead of`} what this pipe should have.`,
  'something-else': () =>
    'Look for what is not on this list: something lodged in a pipe or valve, a part put back the wrong way, a cracked body, a misread gauge or bucket.',
};

function edge(limit: number | null, w: Writer): string {
  return limit === null ? '' : `; at about ${w.share(limit)} it stops with the valve shut`;
}

function times(factor: number): string {
  return `${Number(factor.toPrecision(2))} times`;
}

function moreWords(delivery: number | null, waste: number | null, w: Writer): string {
  if (delivery === null || waste === null) return '';
  const side = (value: number, more: string, less: string) => `${w.flow(Math.abs(value))} ${value < 0 ? less : more}`;
  return ` As it is, it delivers ${side(delivery, 'more', 'less')} and wastes ${side(waste, 'more', 'less')} than when it ran well.`;
}

function frictionWords(friction: RemedyFacts['friction'], w: Writer): string {
  if (friction === null || !(friction.atPump > 0)) return '';
  return ` The gauge's friction of ${w.height(friction.atPump)} belongs to what leaves the pump, not to what arrives (${w.height(friction.atTank)}).`;
}
