import type { FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { FindingText, Words } from './finding-text.ts';
import { NEED_TEXTS } from './finding-texts-need.ts';
import { SOURCE_TEXTS } from './finding-texts-source.ts';

/** What would let a ram beat whose check valve is too late; empty where that is not it. */
const quickCheck = (w: Words) => {
  const lag = w.fact('lag', 'duration');
  return lag === '' ? '' : `Fit a check valve that shuts within ${lag}.`;
};

/** How findings on drive pipe and ram are told. */
const DRIVE_TEXTS = {
  'drive-rises': {
    title: 'Ground in the way of the drive pipe',
    sentence: (w) =>
      `The ground rises ${w.value} above a straight pipe along ${w.about}; a shallow trench takes ${w.limit}.`,
    fails: (w) =>
      `Dig the drive pipe in by ${w.likely}, or choose another line: it must run straight and fall all the way.`,
    measure: (w) => `Stretch a line from inlet to pump and look where the ground stands more than ${w.limit} above it.`,
  },
  'drive-length-bore-least': {
    title: 'Drive pipe short for its bore',
    sentence: (w) => `${w.about} is ${w.likely} bores long; the rule asks for ${w.limit} or more.`,
    fails: (w) =>
      `Make the drive pipe ${w.fact('laid', 'length')} long or choose a bore of ${w.fact('other', 'bore')} or less; a short one beats fast and wears the valve.`,
    measure: (w) =>
      `Measure the length of the drive pipe along the ground: it must be ${w.fact('edge', 'length')} or more.`,
  },
  'drive-length-bore-most': {
    title: 'Drive pipe long for its bore',
    sentence: (w) => `${w.about} is ${w.likely} bores long; the rule allows ${w.limit}.`,
    fails: (w) =>
      `Put a standpipe ${w.fact('laid', 'length')} from the pump or nearer, or choose a bore of ${w.fact('other', 'bore')} or more.`,
    measure: (w) =>
      `Measure the length of the drive pipe along the ground: it must be ${w.fact('edge', 'length')} or less.`,
  },
  'drive-length-fall-least': {
    title: 'Drive pipe short for its fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule asks for ${w.limit}.`,
    fails: (w) => `Make the drive pipe ${w.fact('laid', 'length')} long, or expect a fast beat.`,
    measure: (w) =>
      `Level the fall and measure the drive pipe: at the likely fall it must be ${w.fact('edge', 'length')} or more.`,
  },
  'drive-length-fall-most': {
    title: 'Drive pipe long for its fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule allows ${w.limit}.`,
    fails: (w) => `Put a standpipe ${w.fact('laid', 'length')} from the pump or nearer, or expect a slow beat.`,
    measure: (w) =>
      `Level the fall and measure the drive pipe: at the likely fall it must be ${w.fact('edge', 'length')} or less.`,
  },
  'ram-stops': {
    title: 'Does the ram beat?',
    sentence: (w) => {
      if (w.text('reason') !== '') return `As described, ${w.about} does not beat at these heads: ${w.text('reason')}.`;
      const edge = w.text('edge');
      const beyond = edge === '' ? '' : `; at the ends of what they may be it does not: ${edge}`;
      return `As described, ${w.about} beats at the likely heads${beyond}.`;
    },
    fails: (w) =>
      quickCheck(w) || 'Change the weight or spring of the waste valve, the drive pipe or the place of the pump.',
    measure: (w) =>
      `Level the fall and the lift to ±${w.fact('aim', 'height')}, and check the numbers of the ram. ${quickCheck(w)}`.trim(),
  },
  'valve-sticks': {
    title: 'Waste valve sticks open',
    sentence: (w) =>
      `The fall while running is ${w.value}; below ${w.limit} the waste valve sticks open and pours the water away.`,
    fails: (w) =>
      `Take ${w.fact('share', 'share')} of its weight off the waste valve or ease its spring as much, or find ${w.fact('by', 'height')} more fall.`,
    measure: (w) => `Level the fall; be ready to take ${w.fact('share', 'share')} of its weight off the waste valve.`,
  },
  'valve-stays-shut': {
    title: 'Waste valve stays shut',
    sentence: (w) =>
      `The delivery to ${w.about} pushes back with ${w.value}; below ${w.limit} the waste valve does not fall open.`,
    fails: (w) =>
      `Raise the outlet by ${w.fact('raise', 'height')}, throttle the delivery at the pump by as much, or make the waste valve heavier.`,
    measure: (w) =>
      `Level fall and outlet; be ready to throttle the delivery at the pump by ${w.fact('raise', 'height')}.`,
  },
  'beat-slow': {
    title: 'Slow beat',
    sentence: (w) => `The model gives ${w.likely} beats a minute; ${w.limit} and more are usual.`,
    fails: (w) => `Ease the waste valve, or shorten the drive pipe to ${w.fact('laid', 'length')}.`,
    measure: (w) =>
      `Count the beats once it runs; where there are fewer than ${w.limit} a minute, ease the waste valve.`,
  },
  'beat-fast': {
    title: 'Fast beat',
    sentence: (w) => `The model gives ${w.likely} beats a minute; ${w.limit} and fewer are usual.`,
    fails: (w) => `Make the waste valve heavier, or the drive pipe ${w.fact('laid', 'length')} long.`,
    measure: (w) =>
      `Count the beats once it runs; where there are more than ${w.limit} a minute, make the waste valve heavier.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;

/** How findings on a delivery line are told. */
const DELIVERY_TEXTS = {
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

/** How every finding of the catalogue is told. */
export const FINDING_TEXTS: Readonly<Record<FindingCode, FindingText>> = {
  ...SOURCE_TEXTS,
  ...DRIVE_TEXTS,
  ...DELIVERY_TEXTS,
  ...NEED_TEXTS,
};
