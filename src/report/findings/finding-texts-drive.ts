import type { FindingText, Words } from './finding-text.ts';

/** What would let a ram beat whose check valve is too late; empty where that is not it. */
const quickCheck = (w: Words) => {
  const lag = w.fact('lag', 'duration');
  return lag === '' ? '' : `Fit a check valve that shuts within ${lag}.`;
};

/** How findings on drive pipe and ram are told. */
export const DRIVE_TEXTS = {
  'drive-rises': {
    title: 'Drive pipe would rise',
    sentence: (w) =>
      `On the way down ${w.about} the ground climbs ${w.value}, up to ${w.fact('at', 'length')} from its inlet; its trench takes ${w.limit}.`,
    fails: (w) =>
      `Dig the drive pipe in by ${w.fact('depth', 'height')}, or choose another line: it must fall all the way, or air stands in it.`,
    measure: (w) =>
      `Stretch a line from inlet to pump and look whether the pipe can fall all the way with a trench of ${w.limit}.`,
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
