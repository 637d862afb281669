import { aboveWords, type FindingText } from './finding-text.ts';

/** How findings on what is bought and built are told: pump, pipe, chamber, depth. */
export const BUILD_TEXTS = {
  'readings-few': {
    title: 'Few timings of the source',
    sentence: (w) => `The flow of ${w.about} was timed ${w.likely} times; ${w.limit} are asked for.`,
    fails: () => 'Time it a few times more, and write every time down: they show how sure the flow is.',
    measure: () => 'Time it a few times more.',
  },
  'pump-unchosen': {
    title: 'No pump chosen',
    sentence: (w) => `No pump is chosen for ${w.about}; any is reckoned with that takes what the source gives.`,
    measure: () => 'Choose a size in the table of pump sizes, or type in the sheet of the pump.',
  },
  'drive-bent': {
    title: 'Drive pipe off the straight line',
    sentence: (w) =>
      `The ground along ${w.about} lies up to ${w.value} off a straight pipe; a trench of ${w.limit} is reckoned with.`,
    fails: (w) =>
      `Hold the pipe at every bend, or dig or carry it by ${w.likely} to keep it straight: bends cost some of the blow and must be anchored.`,
    measure: () => 'Stretch a line from inlet to pump and look; anchor the pipe where it bends.',
  },
  'drive-plastic': {
    title: 'Soft drive pipe',
    sentence: (w) => {
      const reach = w.fact('reach', 'height');
      const lift = reach === '' ? '' : ` Here it reaches a delivery head of ${reach}.`;
      return `The pressure wave in ${w.about} runs at ${w.likely}; in a stiff pipe at ${w.limit} and more.${lift}`;
    },
    fails: () =>
      'Use steel where you can: a soft pipe lifts less, must be anchored along its whole length, and the beat tires it.',
    measure: () => 'Ask for the wall and the material of the pipe.',
  },
  'pump-bore': {
    title: 'Pump and drive pipe do not match',
    sentence: (w) =>
      `The pump has a bore of ${w.fact('driveBore', 'bore')}, the drive pipe ${w.fact('bore', 'bore')}: ${w.likely} apart.`,
    fails: (w) => `Choose a drive pipe with a bore of ${w.fact('driveBore', 'bore')}, or a pump that fits it.`,
    measure: () => 'Measure the inside of the pipe and of the pump’s inlet.',
  },
  'waste-valve-low': {
    title: 'Waste valve near the ground',
    sentence: (w) =>
      `The waste valve of ${w.about} lets its water out ${aboveWords(w)} the ground; ${w.limit} are asked for.`,
    fails: (w) =>
      `Set it ${w.fact('by', 'height')} higher, or dig a drain that never fills: under water the valve opens late and less arrives.`,
    measure: () => 'See that its water runs off and never stands over the valve.',
  },
  'air-ripple': {
    title: 'Air chamber small for the beat',
    sentence: (w) => `With its chamber the pressure at ${w.about} swings by ${w.value} of the delivery head in a beat.`,
    fails: (w) =>
      `Choose a chamber of ${w.fact('volume', 'volume')} of air: a small one strains the pump and the pipe, and wears the valves.`,
    measure: (w) => `Read the swing of the gauge; a chamber of ${w.fact('volume', 'volume')} would settle it.`,
  },
  'frost-depth': {
    title: 'Frost',
    sentence: (w) =>
      `In the cold months that were typed in bare ground freezes to about ${w.fact('depth', 'height')}; ${w.about} lies ${w.fact('laid', 'height')} deep.`,
    fails: (w) =>
      `Dig it in below the frost (another ${w.fact('by', 'height')}), or drain pump and lines before the first frost; ask what is usual there.`,
    measure: () => 'Ask how deep the frost goes there; lay the line below it or drain it before the first frost.',
  },
  'velocity-high': {
    title: 'Fast water in a plastic pipe',
    sentence: (w) =>
      `The water in ${w.about} runs at ${w.value}; plastic is kept to ${w.limit} unless surges are dealt with.`,
    fails: (w) => `Lay a pipe with a bore of ${w.fact('wider', 'bore')}, or shut its valves slowly.`,
    measure: () => 'Lay the next larger size, or shut its valves slowly.',
  },
  'pump-head': {
    title: 'Delivery head the pump asks for',
    sentence: (w) => `${w.about} pushes back with ${w.value}; the sheet of the pump asks for ${w.limit}.`,
    fails: (w) => `Raise the outlet by ${w.fact('raise', 'height')}, or throttle the delivery at the pump by as much.`,
    measure: (w) =>
      `Level the outlet against the pump; be ready to throttle the delivery by ${w.fact('raise', 'height')}.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
