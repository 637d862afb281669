import type { FindingText } from './finding-text.ts';

/** How findings on a delivery line are told. */
export const DELIVERY_TEXTS = {
  'back-pressure': {
    title: 'Back pressure',
    sentence: (w) =>
      `At ${w.about} the delivery pushes back with ${w.value} times the fall; the waste valve needs ${w.limit} to fall open again.`,
    fails: (w) =>
      `Lead the delivery over a vented high point at ${w.fact('level', 'height')} or more, or throttle it at the pump by ${w.fact('head', 'height')}; as drawn the pump stops with its valve shut.`,
    measure: (w) =>
      `Level fall and outlet; be ready to throttle the delivery at the pump by ${w.fact('head', 'height')}.`,
  },
  'delivery-head': {
    title: 'Delivery head',
    sentence: (w) => `The head that pushes back from ${w.about} is ${w.value}; ${w.limit} is enough for most pumps.`,
    fails: (w) => `Raise the outlet by ${w.fact('raise', 'height')}, or throttle the delivery at the pump by as much.`,
    measure: (w) =>
      `Level the outlet against the pump; be ready to throttle the delivery by ${w.fact('raise', 'height')}.`,
  },
  'lift-over-fall': {
    title: 'Lift against fall',
    sentence: (w) =>
      `Water for ${w.about} goes up ${w.value} times the fall; beyond ${w.limit} printed efficiencies fall below the planning band.`,
    fails: (w) =>
      `Find a fall of ${w.fact('fall', 'height')} or a tank ${w.fact('lower', 'height')} lower: what is shown for the delivery is too hopeful.`,
    measure: (w) =>
      `Level fall and lift; with a fall of less than ${w.fact('edge', 'height')} what is shown for the delivery is too hopeful.`,
  },
  'lift-out-of-reach': {
    title: 'Reach of the pressure wave',
    sentence: (w) =>
      `${w.about} asks for a delivery head of ${w.value}; the drive pipe’s pressure wave reaches ${w.limit}.`,
    fails: (w) =>
      `Choose a tank ${w.fact('lower', 'height')} lower, or use a stiffer drive pipe (steel instead of plastic).`,
    measure: (w) =>
      `Level the lift; a tank ${w.fact('lower', 'height')} lower or a stiffer drive pipe would settle it.`,
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
