import type { FindingText, Words } from './finding-text.ts';

/** What would let a ram beat whose check valve is too late; empty where that is not it. */
const quickCheck = (w: Words) => {
  const lag = w.fact('lag', 'duration');
  return lag === '' ? '' : `Fit a check valve that shuts within ${lag}.`;
};

/** How findings on drive pipe and ram are told. */
export const DRIVE_TEXTS = {
  'drive-rises': {
    title: 'Drive pipe falling all the way',
    wrong: 'the drive pipe would rise on its way',
    sentence: (w) =>
      `On the way down ${w.about} the ground rises by ${w.value}, up to ${w.fact('at', 'length')} from its inlet; its trench takes up ${w.limit} of that.`,
    fails: (w) =>
      `Dig the drive pipe in ${w.fact('depth', 'height')} deep there, or choose another line: it must fall all the way, or air is caught in it.`,
    measure: (w) =>
      `Stretch a string from the inlet to the pump and see whether the pipe can fall all the way with a trench of ${w.limit}.`,
  },
  'drive-length-bore-least': {
    title: 'Length of the drive pipe for its bore',
    wrong: 'the drive pipe is too short for its bore',
    sentence: (w) => `${w.about} is ${w.likely} times as long as its bore; the rule is ${w.limit} or more.`,
    fails: (w) =>
      `Make the drive pipe ${w.fact('laid', 'length')} long, or choose a bore of ${w.fact('other', 'bore')} or less; with a short one the pump beats fast and wears its valve.`,
    measure: (w) =>
      `Measure the length of the drive pipe along the ground: it must be ${w.fact('edge', 'length')} or more.`,
  },
  'drive-length-bore-most': {
    title: 'Length of the drive pipe for its bore',
    wrong: 'the drive pipe is too long for its bore',
    sentence: (w) => `${w.about} is ${w.likely} times as long as its bore; the rule is at most ${w.limit}.`,
    fails: (w) =>
      `Put a standpipe ${w.fact('laid', 'length')} from the pump or nearer, or choose a bore of ${w.fact('other', 'bore')} or more.`,
    measure: (w) =>
      `Measure the length of the drive pipe along the ground: it must be ${w.fact('edge', 'length')} or less.`,
  },
  'drive-length-fall-least': {
    title: 'Length of the drive pipe for this fall',
    wrong: 'the drive pipe is too short for this fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule is ${w.limit} or more.`,
    fails: (w) => `Make the drive pipe ${w.fact('laid', 'length')} long, or expect a fast beat.`,
    measure: (w) =>
      `Measure the fall and the drive pipe: at the likely fall it must be ${w.fact('edge', 'length')} or more.`,
  },
  'drive-length-fall-most': {
    title: 'Length of the drive pipe for this fall',
    wrong: 'the drive pipe is too long for this fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule is at most ${w.limit}.`,
    fails: (w) => `Put a standpipe ${w.fact('laid', 'length')} from the pump or nearer, or expect a slow beat.`,
    measure: (w) =>
      `Measure the fall and the drive pipe: at the likely fall it must be ${w.fact('edge', 'length')} or less.`,
  },
  'ram-stops': {
    title: 'Beat of the ram',
    wrong: 'the ram does not beat',
    sentence: (w) => {
      if (w.text('reason') !== '') return `As described, ${w.about} does not beat at these heads: ${w.text('reason')}.`;
      const edge = w.text('edge');
      const beyond = edge === '' ? '' : `; at the ends of what they may be it does not: ${edge}`;
      return `As described, ${w.about} beats at the likely heads${beyond}.`;
    },
    fails: (w) =>
      quickCheck(w) || 'Change the weight or spring of the waste valve, the drive pipe or the place of the pump.',
    measure: (w) =>
      `Measure the fall and the lift to ±${w.fact('aim', 'height')}, and check the figures of the ram. ${quickCheck(w)}`.trim(),
  },
  'valve-sticks': {
    title: 'Fall that shuts the waste valve',
    wrong: 'the waste valve sticks open',
    sentence: (w) =>
      `The working fall is ${w.value}; below ${w.limit} the waste valve stays open and pours the water away.`,
    fails: (w) =>
      `Take ${w.fact('share', 'share')} of its weight off the waste valve (or ease its spring as much), or find ${w.fact('by', 'height')} more fall.`,
    measure: (w) => `Measure the fall; be ready to take ${w.fact('share', 'share')} of its weight off the waste valve.`,
  },
  'valve-stays-shut': {
    title: 'Back pressure that opens the waste valve',
    wrong: 'the waste valve stays shut',
    sentence: (w) =>
      `The delivery to ${w.about} pushes back with ${w.value}; below ${w.limit} the waste valve does not open again.`,
    fails: (w) =>
      `Raise the outlet by ${w.fact('raise', 'height')}, throttle the delivery at the pump by as much, or make the waste valve heavier.`,
    measure: (w) =>
      `Measure the fall and the outlet; be ready to throttle the delivery at the pump by ${w.fact('raise', 'height')}.`,
  },
  'beat-slow': {
    title: 'Beats a minute, not too few',
    wrong: 'the beat is slow',
    sentence: (w) => `The computer estimate is ${w.likely} beats a minute; ${w.limit} or more are usual.`,
    fails: (w) => `Ease the waste valve, or shorten the drive pipe to ${w.fact('laid', 'length')}.`,
    measure: (w) => `Count the beats once it runs; if there are fewer than ${w.limit} a minute, ease the waste valve.`,
  },
  'beat-fast': {
    title: 'Beats a minute, not too many',
    wrong: 'the beat is fast',
    sentence: (w) => `The computer estimate is ${w.likely} beats a minute; ${w.limit} or fewer are usual.`,
    fails: (w) => `Make the waste valve heavier, or the drive pipe ${w.fact('laid', 'length')} long.`,
    measure: (w) =>
      `Count the beats once it runs; if there are more than ${w.limit} a minute, make the waste valve heavier.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
