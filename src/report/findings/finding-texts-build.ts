import { aboveWords, type FindingText } from './finding-text.ts';

/** How findings on what is bought and built are told: pump, pipe, chamber, depth. */
export const BUILD_TEXTS = {
  'readings-few': {
    title: 'Number of bucket tests',
    wrong: 'too few bucket tests',
    sentence: (w) => `The flow of ${w.about} was timed ${w.likely} times; at least ${w.limit} are usual.`,
    fails: () => 'Time it a few more times and enter every time: together they show how sure the flow is.',
    measure: () => 'Time it a few more times.',
  },
  'pump-unchosen': {
    title: 'No pump chosen',
    sentence: (w) => `No pump is chosen for ${w.about} yet; the numbers are for any pump that suits this source.`,
    measure: () => 'Choose a size in the table of pump sizes, or enter the figures of the pump you have.',
  },
  'drive-bent': {
    title: 'Drive pipe in a straight line',
    wrong: 'the drive pipe cannot be laid straight',
    sentence: (w) =>
      `The ground along ${w.about} is up to ${w.value} off a straight pipe; its trench takes up ${w.limit} of that.`,
    fails: (w) =>
      `Dig it in or prop it up by ${w.likely} to keep it straight, or anchor it at every bend: each bend takes some of the force out of the beat.`,
    measure: () => 'Stretch a string from the inlet to the pump and look; anchor the pipe where it bends.',
  },
  'drive-plastic': {
    title: 'Stiffness of the drive pipe',
    wrong: 'the drive pipe is too soft',
    sentence: (w) => {
      const reach = w.fact('reach', 'height');
      const lift = reach === '' ? '' : ` Here that is enough for a delivery head of ${reach}.`;
      return `The pressure wave in ${w.about} travels at ${w.likely}; in a stiff pipe it travels at ${w.limit} or more.${lift}`;
    },
    fails: () =>
      'Use steel if you can: a soft pipe lifts less, must be anchored along its whole length, and wears out under the beat.',
    measure: () => 'Find out the material and the wall thickness of the pipe.',
  },
  'pump-bore': {
    title: 'Pump and drive pipe of one size',
    wrong: 'pump and drive pipe are of different sizes',
    sentence: (w) =>
      `The pump’s inlet has a bore of ${w.fact('driveBore', 'bore')}, the drive pipe ${w.fact('bore', 'bore')}: ${w.likely} apart.`,
    fails: (w) => `Choose a drive pipe with a bore of ${w.fact('driveBore', 'bore')}, or a pump that fits it.`,
    measure: () => 'Measure the inside of the pipe and of the pump’s inlet.',
  },
  'waste-valve-low': {
    title: 'Waste valve clear of the ground',
    wrong: 'the waste valve is too near the ground',
    sentence: (w) =>
      `The waste valve of ${w.about} lets its water out ${aboveWords(w)} the ground; it should be ${w.limit} above or more.`,
    fails: (w) =>
      `Set it ${w.fact('by', 'height')} higher, or dig a drain that never fills up: under water the valve opens late and less arrives.`,
    measure: () => 'Make sure that its water runs off and never stands over the valve.',
  },
  'air-ripple': {
    title: 'Size of the air chamber',
    wrong: 'the air chamber is too small',
    sentence: (w) =>
      `With this air chamber the pressure at ${w.about} swings by ${w.value} of the delivery head in a beat; up to ${w.limit} is usual.`,
    fails: (w) =>
      `Choose a chamber that holds ${w.fact('volume', 'volume')} of air: a small one strains the pump and the pipe, and wears the valves.`,
    measure: (w) => `Read how far the gauge swings; a chamber of ${w.fact('volume', 'volume')} would be large enough.`,
  },
  'frost-depth': {
    title: 'Frost',
    wrong: 'frost reaches the pipe',
    sentence: (w) =>
      `In the cold months that you entered, bare ground freezes about ${w.fact('depth', 'height')} deep; ${w.about} is laid ${w.fact('laid', 'height')} deep.`,
    fails: (w) =>
      `Bury it ${w.fact('by', 'height')} deeper, below the frost, or drain the pump and the lines before the first frost; ask locally what is usual.`,
    measure: () => 'Ask locally how deep the frost goes; lay the line below it or drain it before the first frost.',
  },
  'velocity-high': {
    title: 'Speed of the water in the plastic pipe',
    wrong: 'the water runs too fast for a plastic pipe',
    sentence: (w) =>
      `The water in ${w.about} runs at ${w.value}; in plastic pipe it should stay below ${w.limit} unless surges are dealt with.`,
    fails: (w) => `Lay a pipe with a bore of ${w.fact('wider', 'bore')}, or shut its valves slowly.`,
    measure: () => 'Lay the next larger size, or shut its valves slowly.',
  },
  'pump-head': {
    title: 'Delivery head that the pump needs',
    wrong: 'too little delivery head for this pump',
    sentence: (w) => `${w.about} pushes back with ${w.value}; the pump’s maker asks for ${w.limit} or more.`,
    fails: (w) => `Raise the outlet by ${w.fact('raise', 'height')}, or throttle the delivery at the pump by as much.`,
    measure: (w) =>
      `Measure the height of the outlet above the pump; be ready to throttle the delivery by ${w.fact('raise', 'height')}.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
