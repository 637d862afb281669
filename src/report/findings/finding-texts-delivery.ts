import type { FindingText, Words } from './finding-text.ts';

/** A crest over which the full line siphons: a vent there gives the back pressure back. */
const ventAt = (w: Words) => {
  const at = w.fact('vent', 'length');
  return at === ''
    ? ''
    : `Fit a vent at the high point ${at} from the pump: without it the full line siphons and takes the back pressure away.`;
};

/** A lower tank, where one is of use, or else. */
const orLower = (w: Words) => {
  const lower = w.fact('lower', 'height');
  return lower === '' ? 'Use' : `Choose a tank ${lower} lower, or use`;
};

/** How findings on a delivery line are told. */
export const DELIVERY_TEXTS = {
  'back-pressure': {
    title: 'Back pressure',
    sentence: (w) =>
      `At ${w.about} the delivery pushes back with ${w.value} times the fall; ${w.limit} is enough for any waste valve to fall open again, and some need less.`,
    fails: (w) =>
      ventAt(w) ||
      `Lead the delivery over a vented high point at ${w.fact('level', 'height')} or more, or throttle it at the pump by ${w.fact('head', 'height')}; as drawn the pump stops with its valve shut.`,
    measure: (w) =>
      ventAt(w) ||
      `Ask what back pressure the pump runs with; be ready to throttle the delivery at the pump by ${w.fact('head', 'height')}.`,
  },
  'delivery-head': {
    title: 'Delivery head',
    sentence: (w) =>
      `The head that pushes back from ${w.about} is ${w.value}; ${w.limit} is enough for most pumps, and many run with less.`,
    measure: (w) =>
      `Ask the maker; be ready to throttle the delivery at the pump by ${w.fact('raise', 'height')} when it is started.`,
  },
  'lift-over-fall': {
    title: 'Lift against fall',
    sentence: (w) =>
      `Water for ${w.about} goes up ${w.value} times the fall; at ${w.limit} printed efficiencies come to nothing.`,
    fails: (w) =>
      `Find a fall of ${w.fact('fall', 'height')} or a tank ${w.fact('lower', 'height')} lower: so high hardly any ram lifts water worth having.`,
    measure: (w) => `Level fall and lift; a fall of ${w.fact('edge', 'height')} or more would settle it.`,
  },
  'lift-out-of-reach': {
    title: 'Reach of the pressure wave',
    sentence: (w) =>
      `${w.about} asks for a delivery head of ${w.value}; the drive pipe’s pressure wave reaches ${w.limit}.`,
    fails: (w) =>
      `${orLower(w)} a stiffer drive pipe (steel instead of plastic) or a pump whose valve shuts on faster water.`,
    measure: (w) =>
      w.fact('lower', 'height') === ''
        ? 'Level the lift to ±0.1 m; a stiffer drive pipe would settle it.'
        : `Level the lift; a tank ${w.fact('lower', 'height')} lower or a stiffer drive pipe would settle it.`,
  },
  siphon: {
    title: 'Water siphons over a rise',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure head at the crest ${w.fact('at', 'length')} from the pump is ${w.value}.`,
    fails: (w) =>
      `Fit a vent at the crest ${w.fact('at', 'length')} from the pump: without it the water sucks itself over and takes the back pressure away.`,
    measure: (w) => `Level the crest ${w.fact('at', 'length')} from the pump; fit a vent there when in doubt.`,
  },
  'siphon-breaks': {
    title: 'Siphon breaks',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure head at the crest is ${w.value}; below ${w.limit} at this height above the sea the water column breaks.`,
    fails: (w) => `Fit a vent at the crest ${w.fact('at', 'length')} from the pump; what flows beyond it is then open.`,
    measure: (w) => `Level the crest ${w.fact('at', 'length')} from the pump, or fit a vent there.`,
  },
  'friction-share': {
    title: 'Friction of the delivery line',
    sentence: (w) => `Friction on the way to ${w.about} takes ${w.value} of the lift; ${w.limit} is a good bound.`,
    fails: (w) => `Lay a delivery pipe with a bore of ${w.fact('wider', 'bore')} or more.`,
    measure: (w) => `Lay a delivery pipe with a bore of ${w.fact('wider', 'bore')} or more, or measure what arrives.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
