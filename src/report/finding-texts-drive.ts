import { always, type FindingText } from './finding-text.ts';

/** How findings on drive pipe and ram are told. */
export const DRIVE_TEXTS = {
  'drive-rises': {
    title: 'Ground in the way of the drive pipe',
    sentence: (w) =>
      `The ground rises ${w.value} above a straight pipe along ${w.about}; a shallow trench takes ${w.limit}.`,
    fails: (w) =>
      `Dig the drive pipe in by ${w.likely}, or choose another line: it must run straight and fall all the way.`,
    measure: always('Stretch a line from inlet to pump and look where the ground stands above it.'),
  },
  'drive-length-bore-least': {
    title: 'Drive pipe short for its bore',
    sentence: (w) => `${w.about} is ${w.likely} bores long; the rule asks for ${w.limit} or more.`,
    fails: always('Make the drive pipe longer or choose a smaller bore; a short one beats fast and wears the valve.'),
    measure: always('Measure the length of the drive pipe along the ground.'),
  },
  'drive-length-bore-most': {
    title: 'Drive pipe long for its bore',
    sentence: (w) => `${w.about} is ${w.likely} bores long; the rule allows ${w.limit}.`,
    fails: always(
      'Put a standpipe nearer to the pump so that the drive pipe becomes shorter, or choose a larger bore.',
    ),
    measure: always('Measure the length of the drive pipe along the ground.'),
  },
  'drive-length-fall-least': {
    title: 'Drive pipe short for its fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule asks for ${w.limit}.`,
    fails: always('Make the drive pipe longer, or expect a fast beat.'),
    measure: always('Level the fall and measure the drive pipe.'),
  },
  'drive-length-fall-most': {
    title: 'Drive pipe long for its fall',
    sentence: (w) => `${w.about} is ${w.value} times as long as the fall; the rule allows ${w.limit}.`,
    fails: always('Put a standpipe nearer to the pump so that the drive pipe becomes shorter, or expect a slow beat.'),
    measure: always('Level the fall and measure the drive pipe.'),
  },
  'ram-stops': {
    title: 'Does the ram beat?',
    sentence: (w) => {
      if (w.text('reason') !== '') return `As described, ${w.about} does not beat at these heads: ${w.text('reason')}.`;
      const edge = w.text('edge');
      const beyond = edge === '' ? '' : `; at the ends of what they may be it does not: ${edge}`;
      return `As described, ${w.about} beats at the likely heads${beyond}.`;
    },
    fails: always('Change the weight or spring of the waste valve, the drive pipe or the place of the pump.'),
    measure: always('Level the fall and the lift, and check the numbers of the ram.'),
  },
  'valve-sticks': {
    title: 'Waste valve sticks open',
    sentence: (w) =>
      `The fall while running is ${w.value}; below ${w.limit} the waste valve sticks open and pours the water away.`,
    fails: always('Take weight off the waste valve or ease its spring, or find more fall.'),
    measure: always('Level the fall; be ready to take weight off the waste valve.'),
  },
  'valve-stays-shut': {
    title: 'Waste valve stays shut',
    sentence: (w) =>
      `The delivery to ${w.about} pushes back with ${w.value}; below ${w.limit} the waste valve does not fall open.`,
    fails: always('Raise the outlet, throttle the delivery at the pump or make the waste valve heavier.'),
    measure: always('Level fall and outlet; be ready to throttle the delivery at the pump.'),
  },
  'beat-slow': {
    title: 'Slow beat',
    sentence: (w) => `The model gives ${w.likely} beats a minute; ${w.limit} and more are usual.`,
    fails: always('Ease the waste valve or shorten the drive pipe.'),
    measure: always('Count the beats once it runs.'),
  },
  'beat-fast': {
    title: 'Fast beat',
    sentence: (w) => `The model gives ${w.likely} beats a minute; ${w.limit} and fewer are usual.`,
    fails: always('Make the waste valve heavier or the drive pipe longer.'),
    measure: always('Count the beats once it runs.'),
  },
} as const satisfies Readonly<Record<string, FindingText>>;
