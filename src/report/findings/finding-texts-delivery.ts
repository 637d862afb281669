import type { FindingText, Words } from './finding-text.ts';

/** A crest over which the full line siphons: a vent there gives the back pressure back. */
const ventAt = (w: Words) => {
  const at = w.fact('vent', 'length');
  return at === ''
    ? ''
    : `Fit a vent at the high point ${at} from the pump: without it the full line siphons and the back pressure is lost.`;
};

/** A lower tank, where one is of use, or else. */
const orLower = (w: Words) => {
  const lower = w.fact('lower', 'height');
  return lower === '' ? 'Use' : `Choose a tank ${lower} lower, or use`;
};

/** How findings on a delivery line are told. */
export const DELIVERY_TEXTS = {
  'back-pressure': {
    title: 'Back pressure on the pump',
    wrong: 'too little back pressure on the pump',
    sentence: (w) =>
      `At ${w.about} the delivery pushes back with ${w.value} times the fall; ${w.limit} times lets any waste valve open again, and some need less.`,
    fails: (w) =>
      ventAt(w) ||
      `Lead the delivery line over a vented high point at ${w.fact('level', 'height')} above sea level or more, or throttle it at the pump by ${w.fact('head', 'height')}; as drawn the pump stops with its valve shut.`,
    measure: (w) =>
      ventAt(w) ||
      `Ask the maker what back pressure the pump needs; be ready to throttle the delivery at the pump by ${w.fact('head', 'height')}.`,
  },
  'delivery-head': {
    title: 'Delivery head',
    sentence: (w) =>
      `${w.about} pushes back with a head of ${w.value}; ${w.limit} is enough for most pumps, and many run with less.`,
    measure: (w) =>
      `Ask the maker; be ready to throttle the delivery at the pump by ${w.fact('raise', 'height')} when it is started.`,
  },
  'lift-over-fall': {
    title: 'Lift for this fall',
    wrong: 'the lift is too high for this fall',
    sentence: (w) =>
      `Water for ${w.about} goes up ${w.value} times the fall; at ${w.limit} times hardly any water is left to deliver.`,
    fails: (w) => `Find a fall of ${w.fact('fall', 'height')}, or a tank ${w.fact('lower', 'height')} lower.`,
    measure: (w) => `Measure the fall and the lift; a fall of ${w.fact('edge', 'height')} or more is enough.`,
  },
  'lift-out-of-reach': {
    title: 'Height that the pump can reach',
    wrong: 'the lift is higher than the pump can reach',
    sentence: (w) =>
      `${w.about} needs a delivery head of ${w.value}; the pressure wave of this drive pipe reaches ${w.limit}.`,
    fails: (w) =>
      `${orLower(w)} a stiffer drive pipe (steel instead of plastic) or a pump whose waste valve shuts at a higher speed of the water.`,
    measure: (w) =>
      w.fact('lower', 'height') === ''
        ? 'Measure the lift; a stiffer drive pipe would be enough.'
        : `Measure the lift; a tank ${w.fact('lower', 'height')} lower or a stiffer drive pipe would be enough.`,
  },
  siphon: {
    title: 'Siphon over a high point',
    wrong: 'the full line siphons over a high point',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure at the high point ${w.fact('at', 'length')} from the pump is ${w.value} of water.`,
    fails: (w) =>
      `Fit a vent at the high point ${w.fact('at', 'length')} from the pump: without it the line siphons and the back pressure is lost.`,
    measure: (w) =>
      `Measure the height of the high point ${w.fact('at', 'length')} from the pump; if in doubt fit a vent there.`,
  },
  'siphon-breaks': {
    title: 'Suction at a high point',
    wrong: 'the water breaks apart at a high point',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure at its high point is ${w.value} of water; below ${w.limit} at this height above the sea the water breaks apart.`,
    fails: (w) =>
      `Fit a vent at the high point ${w.fact('at', 'length')} from the pump; beyond it the pipe then runs partly full.`,
    measure: (w) =>
      `Measure the height of the high point ${w.fact('at', 'length')} from the pump, or fit a vent there.`,
  },
  'friction-share': {
    title: 'Friction in the delivery line',
    wrong: 'too much friction in the delivery line',
    sentence: (w) =>
      `Friction on the way to ${w.about} adds ${w.value} to the lift; up to ${w.limit} is good practice.`,
    fails: (w) => `Lay a delivery pipe with a bore of ${w.fact('wider', 'bore')} or more.`,
    measure: (w) => `Lay a delivery pipe with a bore of ${w.fact('wider', 'bore')} or more, or measure what arrives.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
