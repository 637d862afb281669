import { aboveWords, type FindingText, type Words } from './finding-text.ts';

/** A wider pipe, where one is of use. */
const orWider = (w: Words) => {
  const bore = w.fact('wider', 'bore');
  return bore === '' ? '' : `, or lay a pipe with a bore of ${bore}`;
};

/** Who drinks from there: all of the herd, or the share that the plan or the number of troughs makes. */
const drinkers = (w: Words) => {
  const share = w.fact('share', 'share');
  return share === '' ? 'the herd needs' : `the ${share} of the herd that drinks there needs`;
};

/** Where a line climbs higher than its outlet. */
const roundCrest = (w: Words) => {
  const crest = w.fact('crest', 'length');
  return crest === ''
    ? 'Find'
    : `Lead the line around its high point ${crest} from the pump, ${w.fact('over', 'height')} above the outlet, or find`;
};

/** Where the line would carry more than it is given. */
const moreWater = (w: Words) => `Find ${w.fact('by', 'daily-volume')} more water for it: the line could bring it.`;

/** How findings on needs, pressures and gravity lines are told. */
export const NEED_TEXTS = {
  'need-unmet': {
    title: 'Enough for the herd',
    wrong: 'too little arrives for the herd',
    sentence: (w) => `${w.about} gets ${w.value}; ${drinkers(w)} ${w.limit}.`,
    fails: (w) =>
      `${roundCrest(w)} another ${w.fact('by', 'daily-volume')}: more fall, more water or a lower tank. The herd needs more than this brings.`,
    measure: (w) => `Measure what is listed first; until then count on ${w.fact('low', 'daily-volume')}.`,
  },
  'year-short': {
    title: 'Days short of water in the year',
    wrong: 'water runs short in the year',
    sentence: (w) =>
      w.text('month') === ''
        ? `The herd gets what it needs at ${w.about} all year.`
        : `The herd gets too little at ${w.about} on ${w.value} days of the year, most of them in ${w.text('month')}: short by ${w.fact('missing', 'volume')}.`,
    fails: (w) =>
      `Make up ${w.fact('missing', 'volume')} in the months that run short: a larger tank, fewer animals then, or other water. The table of the year shows which months.`,
    measure: (w) => `Measure what is listed first; until then count on 1 day short or more at ${w.about} in a year.`,
  },
  'pump-needless': {
    title: 'Outlet above the source',
    wrong: 'the outlet is below the source, so no pump is needed',
    sentence: (w) => `${w.about} lies ${aboveWords(w)} the water at the source.`,
    fails: (w) =>
      `Lay a gravity line to ${w.about} and no pump: it lies ${w.fact('below', 'height')} below the source.`,
    measure: (w) =>
      `Measure how high ${w.about} is above the source, to ±${w.fact('aim', 'height')}: it may need no pump at all.`,
  },
  'pipe-pressure': {
    title: 'Pressure in the pipe',
    wrong: 'the pressure is too high for the pipe',
    sentence: (w) =>
      `The highest pressure in ${w.about} is ${w.value}; the pipe is rated for ${w.limit} at this water’s temperature.`,
    fails: (w) => `Lay a pipe that is rated for ${w.fact('rating', 'pressure')} at this temperature.`,
    measure: (w) =>
      `Lay a pipe that is rated for ${w.fact('rating', 'pressure')} at this temperature, or measure the height that makes the pressure.`,
  },
  'pipe-warm': {
    title: 'Temperature that the pipe is rated for',
    wrong: 'the water is too warm for the pipe’s rating',
    sentence: (w) => `Water at ${w.value} runs in ${w.about}; its material is rated up to ${w.limit} and not above.`,
    fails: (w) =>
      `Lay ${w.about} in a material that is rated for water at ${w.value}, or keep the water below ${w.limit}.`,
    measure: (w) => `Lay a material that is rated for water at ${w.value}.`,
  },
  'blocked-pressure': {
    title: 'Pressure if the delivery is shut',
    wrong: 'the pipe bursts if the delivery is shut',
    sentence: (w) =>
      `If somebody shuts the delivery, the pump drives the pressure in ${w.about} up to ${w.value}; the pipe is rated for ${w.limit}.`,
    fails: (w) =>
      `Fit a relief valve at the pump that opens below ${w.limit} and no stop valve that can be left shut; stop the pump before closing anything.`,
    measure: (w) =>
      `Fit a relief valve at the pump that opens below ${w.limit}, and stop the pump before closing anything.`,
  },
  'trough-dry': {
    title: 'Flow to the trough',
    wrong: 'too little flow to the trough',
    sentence: (w) => `${w.about} brings ${w.value} with the float valve open; ${drinkers(w)} ${w.limit}.`,
    fails: (w) =>
      w.fact('higher', 'height') === ''
        ? moreWater(w)
        : `Find ${w.fact('higher', 'height')} more height above the trough${orWider(w)}.`,
    measure: (w) =>
      w.fact('higher', 'height') === ''
        ? moreWater(w)
        : `Measure how far the trough is below the outlet that feeds it; ${w.fact('higher', 'height')} more height would be enough${orWider(w)}.`,
  },
  'storage-short': {
    title: 'Water in store',
    wrong: 'too little water in store',
    sentence: (w) =>
      `A full ${w.about} lasts the animals that drink from it ${w.value}; ${w.limit} get them through a breakdown.`,
    fails: (w) => `Choose a tank of ${w.fact('volume', 'volume')}, or check the pump every day.`,
    measure: (w) => `Measure what the tank holds; one of ${w.fact('volume', 'volume')} would be large enough.`,
  },
  'trough-first-hour': {
    title: 'Water when the herd comes all at once',
    wrong: 'too little water when the herd comes all at once',
    sentence: (w) =>
      `${w.about} holds and gets ${w.value} in the first hour; animals that come all at once want ${w.limit}.`,
    fails: (w) => `Choose a trough of ${w.fact('volume', 'volume')} or a line that refills it faster.`,
    measure: (w) =>
      `Measure how far the trough is below the outlet that feeds it; one of ${w.fact('volume', 'volume')} would be large enough.`,
  },
  'gravity-air': {
    title: 'High point on the gravity line',
    wrong: 'a high point on the gravity line catches air',
    sentence: (w) =>
      `The pressure line of ${w.about} passes ${aboveWords(w)} its high point ${w.fact('at', 'length')} from the start.`,
    fails: (w) =>
      `Lay the pipe ${w.fact('by', 'height')} lower at ${w.fact('at', 'length')} from the start, or fit a vent there: air gathers and stops the flow.`,
    measure: (w) =>
      `Measure the height of the ground ${w.fact('at', 'length')} from the start; lay the pipe ${w.fact('by', 'height')} lower there to be safe.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
