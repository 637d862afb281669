import { aboveWords, always, type FindingText, type Words } from './finding-text.ts';

/** When air goes in, where the level sinks. */
const sinking = (w: Words) => {
  const after = w.fact('air', 'duration');
  return after === '' ? '' : ` At the likely figures the level sinks, and air goes in after ${after}.`;
};

/** What lines to troughs take of the same water. */
const besideDrawn = (w: Words) => {
  const drawn = w.fact('drawn', 'flow');
  return drawn === '' ? '' : ` beside the ${drawn} that its own lines to troughs use while their valves are open`;
};

/** How many pumps stand side by side; empty for one. */
const many = (w: Words) => w.fact('pumps', 'count');

const pumps = (w: Words) => (many(w) === '' ? 'the pump needs' : `the ${many(w)} pumps together need`);

const fewer = (w: Words) => (many(w) === '' ? '' : 'Shut off pumps while there is less water, one after the other. ');

const drivePipes = (w: Words) =>
  many(w) === '' ? 'the drive pipe' : `one pipe as large as all ${many(w)} drive pipes together`;

const throttle = (w: Words) =>
  w.fact('drawn', 'flow') === ''
    ? ''
    : 'Throttle the lines to the troughs so that the pump keeps its water while they fill, or feed them from a tank. ';

/** A pump that the source feeds for sure. */
const runsOn = (w: Words) => {
  const most = w.fact('most', 'flow');
  return most === '' ? '' : ` until then choose a pump that runs on ${most}:`;
};

/** A wider supply line, where one is of use. */
const orWider = (w: Words) => {
  const bore = w.fact('wider', 'bore');
  return bore === '' ? '' : `, or lay a supply line with a bore of ${bore}`;
};

/** How findings on ground, source, supply line and standpipe are told. */
export const SOURCE_TEXTS = {
  'ground-unknown': {
    title: 'Ground along the way',
    wrong: 'the ground along the way is not known',
    sentence: (w) => `The elevation file has no heights along ${w.value} of ${w.about}.`,
    measure: (w) =>
      `Walk these ${w.likely} and measure the heights of their high and low points, or open an elevation file that covers them.`,
  },
  'point-unknown': {
    title: 'Height of the ground',
    wrong: 'no height is known here',
    sentence: (w) => `The elevation file has no height under ${w.about}.`,
    measure: (w) =>
      `Measure the height of ${w.about} against another point to ±${w.fact('aim', 'height')} and enter it, or open an elevation file that covers it.`,
  },
  'across-files': {
    title: 'Heights from two files',
    sentence: (w) =>
      `The height of ${w.about} comes from ${w.text('file')}, that of the place it is compared with from ${w.text('other')}; the two files may differ by more than either is off by itself.`,
    measure: (w) => `Measure the difference on site to ±${w.fact('aim', 'height')}, or open one file that covers both.`,
  },
  'reading-contradicts': {
    title: 'A measured height against the rest',
    wrong: 'a measured height contradicts the rest',
    sentence: (w) =>
      `The height measured at ${w.about} is ${w.fact('reading', 'height')}, but the elevation file and the other measurements say ${w.fact('expected', 'height')}: ${w.likely} times what they are usually apart; up to ${w.limit} times can be chance.`,
    measure: (w) =>
      `Measure ${w.about} again: ${w.fact('expected', 'height')} is expected. Heights may be counted from another zero, misread, or taken at the wrong point. Where the measurements are listed you can keep it, leave it out, or say that it counts from a zero of its own.`,
  },
  'line-crosses': {
    title: 'Way around what must not be crossed',
    wrong: 'a line crosses what must not be crossed',
    sentence: (w) => `${w.value} of ${w.about} is in ${w.text('area')}, which no line may cross.`,
    fails: always('Lead the line around it, or mark the gate or culvert where it may cross.'),
    measure: always('Lead the line around it, or mark the gate or culvert where it may cross.'),
  },
  'run-unlike': {
    title: 'Test runs of the pump',
    wrong: 'a test run does not fit',
    sentence: (w) =>
      w.likely === '0'
        ? 'The test runs fit this pump.'
        : `${w.likely} test ${w.likely === '1' ? 'run does' : 'runs do'} not fit ${w.about} and ${w.likely === '1' ? 'is' : 'are'} left out: ${w.text('fault')}.`,
    measure: (w) =>
      `Measure drive flow, delivery, fall and lift of ${w.about} again, at least three times, or correct the figures of the pump.`,
  },
  'yield-unread': {
    title: 'What the source gives',
    wrong: 'nobody has measured the source',
    sentence: (w) => `Nobody has measured yet what ${w.about} gives.`,
    measure: always(
      'Time how long it takes to fill a bucket, at least three times, in the driest weeks, and enter the times.',
    ),
  },
  'fall-small': {
    title: 'Working fall',
    wrong: 'too little fall',
    sentence: (w) => `The working fall is ${w.value}; rams are built for ${w.limit} or more.`,
    fails: (w) => `Set the pump ${w.fact('by', 'height')} lower, or take the water that much higher up.`,
    measure: (w) =>
      `Measure the fall from the water at the source to the waste valve before anything is dug; ${w.fact('by', 'height')} more would be enough.`,
  },
  'source-short': {
    title: 'Enough water for the pump',
    wrong: 'too little water for the pump',
    sentence: (w) =>
      `${w.about} gives you ${w.value} to use${besideDrawn(w)}; ${pumps(w)} ${w.limit} to keep beating.${sinking(w)}`,
    fails: (w) =>
      `${throttle(w)}${fewer(w)}Choose a smaller pump, or tune its waste valve to use less than ${w.likely}.`,
    measure: (w) => `Time the source again in the driest weeks;${runsOn(w)} it must give ${w.limit}.`,
  },
  'supply-short': {
    title: 'Enough water through the supply line',
    wrong: 'the supply line brings too little water',
    sentence: (w) => `${w.about} can carry ${w.value} before the standpipe draws air; ${pumps(w)} ${w.limit}.`,
    fails: (w) => `Set the inlet of the standpipe ${w.fact('lower', 'height')} lower${orWider(w)}.`,
    measure: (w) =>
      `Measure how far the inlet of the standpipe is below the water at the source, or set it ${w.fact('lower', 'height')} lower${orWider(w)}.`,
  },
  'supply-air': {
    title: 'High point on the supply line',
    wrong: 'a high point on the supply line catches air',
    sentence: (w) =>
      `The pressure line of ${w.about} passes ${aboveWords(w)} its high point ${w.fact('at', 'length')} from the source.`,
    fails: (w) =>
      `Lay the pipe ${w.fact('by', 'height')} lower at ${w.fact('at', 'length')} from the source or lead it around: air gathers there and stops the flow.`,
    measure: (w) =>
      `Measure the height of the ground ${w.fact('at', 'length')} from the source; lay the pipe ${w.fact('by', 'height')} lower there to be safe.`,
  },
  'supply-bore': {
    title: 'Size of the supply line',
    wrong: 'the supply line is too narrow',
    sentence: (w) =>
      `${w.about} has a bore of ${w.fact('bore', 'bore')}, ${w.likely} times that of ${drivePipes(w)}; it should be at least one size larger, ${w.limit} times or more.`,
    fails: (w) => `Lay a supply line with a bore of ${w.fact('wider', 'bore')} or more.`,
    measure: (w) =>
      `Measure the bores of both pipes; a supply line with a bore of ${w.fact('wider', 'bore')} would be large enough.`,
  },
  'standpipe-low': {
    title: 'Top of the standpipe',
    wrong: 'the standpipe spills',
    sentence: (w) =>
      `The top of ${w.about} is ${aboveWords(w)} the highest level that the water swings to when the pump stops; ${w.limit} above keeps it from spilling.`,
    fails: (w) =>
      `Make the standpipe ${w.fact('by', 'height')} taller, or let it spill on purpose where that does no harm.`,
    measure: (w) =>
      `Measure how far the ground at the standpipe is below the water at the source before you cut it to length; ${w.fact('by', 'height')} taller would be enough.`,
  },
  'standpipe-place': {
    title: 'Place of the standpipe',
    wrong: 'the standpipe stands in the wrong place',
    sentence: (w) =>
      `${w.about} stands ${w.value} off the stretch where the drive pipe has the right length and the supply line brings enough.`,
    fails: (w) =>
      `Move ${w.about} to ${w.fact('at', 'length')} from the pump along the drawn line; the ground there is at ${w.fact('ground', 'height')}, and it must be ${w.fact('height', 'height')} tall.`,
    measure: (w) =>
      `Measure the drive pipe along the ground; a standpipe ${w.fact('at', 'length')} from the pump would suit.`,
  },
  'standpipe-nowhere': {
    title: 'A place for the standpipe',
    wrong: 'there is no place for a standpipe on this line',
    sentence: (w) =>
      w.fact('short', 'length') === ''
        ? `At the best place on the drawn line the inlet of ${w.about} has ${w.value} more water over it than it needs.`
        : `No place on the drawn line suits the drive pipe: the nearest misses the rules for its length by ${w.fact('short', 'length')}.`,
    fails: (w) =>
      w.fact('short', 'length') === ''
        ? `Find ${w.fact('by', 'height')} of height for its inlet: lay a larger supply line, use less water, or draw a line on which the ground falls later.`
        : `Draw a line on which the drive pipe can be ${w.fact('by', 'length')} nearer to the rules for its length.`,
    measure: (w) =>
      w.fact('short', 'length') === ''
        ? `Measure heights along the line from source to pump; ${w.fact('by', 'height')} more over the inlet would be enough.`
        : `Measure the length from source to pump; ${w.fact('by', 'length')} more would be enough.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
