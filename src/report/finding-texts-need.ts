import { always, type FindingText, type Words } from './finding-text.ts';

/** Who drinks from there: all of the herd, or the share that the plan or the number of troughs makes. */
const drinkers = (w: Words) => {
  const share = w.fact('share', 'share');
  return share === '' ? 'the herd needs' : `the ${share} of the herd that drinks there needs`;
};

/** How findings on needs, pressures and gravity lines are told. */
export const NEED_TEXTS = {
  'need-unmet': {
    title: 'Delivery against the need',
    sentence: (w) => `${w.about} gets ${w.value}; ${drinkers(w)} ${w.limit}.`,
    fails: always('Find more fall, more water or a lower tank; the herd will want more than arrives.'),
    measure: always('Measure what is listed first; until then count on the lower figure.'),
  },
  'pump-needless': {
    title: 'Above the source?',
    sentence: (w) => `${w.about} lies ${w.value} above the water at the source.`,
    fails: (w) => `No pump is needed for ${w.about}: it lies below the source, so lay a gravity line there.`,
    measure: (w) => `Level ${w.about} against the source: it may need no pump at all.`,
  },
  'pipe-pressure': {
    title: 'Pressure in the pipe',
    sentence: (w) =>
      `The highest pressure in ${w.about} is ${w.value}; the pipe is rated for ${w.limit} at this water’s temperature.`,
    fails: always('Choose a pipe of a higher class.'),
    measure: always('Choose the next higher class, or level the height that makes the pressure.'),
  },
  'blocked-pressure': {
    title: 'If the delivery is shut',
    sentence: (w) =>
      `With the delivery shut the pump drives ${w.about} up to ${w.value}; the pipe is rated for ${w.limit}.`,
    fails: always(
      'Fit a relief valve at the pump and no stop valve that can be forgotten; stop the pump before closing anything.',
    ),
    measure: always('Fit a relief valve at the pump and stop the pump before closing anything.'),
  },
  'trough-dry': {
    title: 'Flow to the trough',
    sentence: (w) => `${w.about} brings ${w.value} with the float valve open; ${drinkers(w)} ${w.limit}.`,
    fails: always('Lay a larger pipe or find more height above the trough.'),
    measure: always('Level the trough against the outlet that feeds it.'),
  },
  'storage-short': {
    title: 'Water in store',
    sentence: (w) =>
      `A full ${w.about} lasts the animals that drink from it ${w.value}; ${w.limit} tide over a stopped pump.`,
    fails: always('Choose a larger tank, or look at the pump every day.'),
    measure: always('Choose a larger tank, or look at the pump every day.'),
  },
  'trough-first-hour': {
    title: 'When the herd comes together',
    sentence: (w) =>
      `${w.about} holds and gets ${w.value} in the first hour; animals that come together want ${w.limit}.`,
    fails: always('Choose a larger trough or a line that refills it faster.'),
    measure: always('Level the trough against the outlet that feeds it.'),
  },
  'gravity-air': {
    title: 'High point on the gravity line',
    sentence: (w) =>
      `The water line of ${w.about} passes ${w.value} above its high point ${w.fact('at', 'length')} from the start.`,
    fails: (w) =>
      `Take the pipe lower at ${w.fact('at', 'length')} from the start, or fit a vent there: air gathers and stops the flow.`,
    measure: (w) => `Level the ground ${w.fact('at', 'length')} from the start; fit a vent there if it stands out.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
