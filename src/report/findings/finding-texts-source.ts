import { aboveWords, always, type FindingText, type Words } from './finding-text.ts';

/** When air goes in, where the level sinks. */
const sinking = (w: Words) => {
  const after = w.fact('air', 'duration');
  return after === '' ? '' : ` At the likely figures the level sinks and air goes in after ${after}.`;
};

/** What lines to troughs take of the same water. */
const besideDrawn = (w: Words) => {
  const drawn = w.fact('drawn', 'flow');
  return drawn === '' ? '' : ` beside the ${drawn} that its own lines to troughs take while their valves are open`;
};

/** How many pumps stand side by side; empty for one. */
const many = (w: Words) => w.fact('pumps', 'count');

const pumps = (w: Words) => (many(w) === '' ? 'the pump needs' : `the ${many(w)} pumps together need`);

const fewer = (w: Words) => (many(w) === '' ? '' : 'Shut off pumps while there is less water, one after the other. ');

const drivePipes = (w: Words) =>
  many(w) === '' ? 'the drive pipe' : `one pipe with the section of all ${many(w)} drive pipes`;

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
    title: 'Ground unknown on the way',
    sentence: (w) => `The DEM has no height along ${w.value} of ${w.about}.`,
    measure: (w) => `Walk these ${w.likely} and level their high and low points, or bring a DEM that covers them.`,
  },
  'point-unknown': {
    title: 'No height here',
    sentence: (w) => `The DEM has no height under ${w.about}.`,
    measure: (w) =>
      `Level ${w.about} from another point to ±${w.fact('aim', 'height')} and enter the difference, or bring a DEM that covers it.`,
  },
  'across-files': {
    title: 'Heights from two files',
    sentence: (w) =>
      `The height of ${w.about} comes from ${w.text('file')}, that of the place it is compared with from ${w.text('other')}; files may differ by more than each by itself.`,
    measure: (w) => `Level the difference on site to ±${w.fact('aim', 'height')}, or bring one file that covers both.`,
  },
  'reading-contradicts': {
    title: 'A reading against the rest',
    sentence: (w) =>
      `The level taken at ${w.about} is ${w.fact('reading', 'height')}, where the DEM and the other levels say ${w.fact('expected', 'height')}: ${w.likely} standard deviations apart; ${w.limit} are thought to be bad luck.`,
    measure: (w) =>
      `Take the level at ${w.about} again: ${w.fact('expected', 'height')} is expected. It may be another zero (heights from a survey of its own tell differences only), a slip at the staff, or the wrong point. Keep the reading, set it aside or call it a survey of its own where the measured levels are listed.`,
  },
  'line-crosses': {
    title: 'Crosses what must not be crossed',
    sentence: (w) => `${w.value} of ${w.about} lie in ${w.text('area')}, which no line may cross.`,
    fails: always('Lead the line round it, or mark the gate or culvert at which it may cross.'),
    measure: always('Lead the line round it, or mark the gate or culvert at which it may cross.'),
  },
  'run-unlike': {
    title: 'A measured run that does not fit',
    sentence: (w) =>
      w.likely === '0'
        ? 'The measured runs fit this pump.'
        : `${w.likely} measured ${w.likely === '1' ? 'run does' : 'runs do'} not fit ${w.about} and ${w.likely === '1' ? 'is' : 'are'} left out: ${w.text('fault')}.`,
    measure: (w) =>
      `Take water in, water delivered, fall and delivery head of ${w.about} again, at least three times, or correct what is entered of the pump.`,
  },
  'yield-unread': {
    title: 'Yield of the source not known',
    sentence: (w) => `Nobody has said what ${w.about} gives.`,
    measure: always('Time the filling of a bucket at least three times, in the driest weeks, and enter the times.'),
  },
  'fall-small': {
    title: 'Fall',
    sentence: (w) => `The fall while running is ${w.value}; rams are built for ${w.limit} and more.`,
    fails: (w) => `Set the pump ${w.fact('by', 'height')} lower, or take the water so much higher.`,
    measure: (w) =>
      `Level the fall from the water at the source to the waste valve before anything is dug; ${w.fact('by', 'height')} more would settle it.`,
  },
  'source-short': {
    title: 'Source against the pump’s need',
    sentence: (w) =>
      `${w.about} may give ${w.value}${besideDrawn(w)}; ${pumps(w)} ${w.limit} to keep beating.${sinking(w)}`,
    fails: (w) =>
      `${throttle(w)}${fewer(w)}Choose a smaller pump or set its waste valve to take less than ${w.likely}.`,
    measure: (w) => `Time the source again in the driest weeks;${runsOn(w)} it must give ${w.limit}.`,
  },
  'supply-short': {
    title: 'Supply line against the pump’s need',
    sentence: (w) => `${w.about} brings ${w.value} before the standpipe draws air; ${pumps(w)} ${w.limit}.`,
    fails: (w) => `Set the inlet of the standpipe ${w.fact('lower', 'height')} lower${orWider(w)}.`,
    measure: (w) =>
      `Level the inlet of the standpipe against the water at the source, or set it ${w.fact('lower', 'height')} lower${orWider(w)}.`,
  },
  'supply-air': {
    title: 'High point on the supply line',
    sentence: (w) =>
      `The water line of ${w.about} passes ${aboveWords(w)} its high point ${w.fact('at', 'length')} from the source.`,
    fails: (w) =>
      `Lay the pipe ${w.fact('by', 'height')} lower at ${w.fact('at', 'length')} from the source or lead it round: air gathers there and stops the flow.`,
    measure: (w) =>
      `Level the ground ${w.fact('at', 'length')} from the source; lay the pipe ${w.fact('by', 'height')} lower there to be safe.`,
  },
  'supply-bore': {
    title: 'Bore of the supply line',
    sentence: (w) =>
      `${w.about} has a bore of ${w.fact('bore', 'bore')}, ${w.likely} times that of ${drivePipes(w)}; one size larger is ${w.limit} times or more.`,
    fails: (w) => `Lay a supply line with a bore of ${w.fact('wider', 'bore')} or more.`,
    measure: (w) =>
      `Measure the bores of both pipes; a supply line with a bore of ${w.fact('wider', 'bore')} would settle it.`,
  },
  'standpipe-low': {
    title: 'Top of the standpipe',
    sentence: (w) =>
      `The top of ${w.about} stands ${aboveWords(w)} the highest that the water swings to when the pump stops; ${w.limit} keeps it from spilling.`,
    fails: (w) =>
      `Make the standpipe ${w.fact('by', 'height')} taller, or let it spill on purpose where that does no harm.`,
    measure: (w) =>
      `Level the ground at the standpipe against the water at the source before it is cut to length; ${w.fact('by', 'height')} taller would settle it.`,
  },
  'standpipe-place': {
    title: 'Place of the standpipe',
    sentence: (w) =>
      `${w.about} stands ${w.value} off the stretch on which the drive pipe keeps its length and the supply line brings enough.`,
    fails: (w) =>
      `Move ${w.about} to ${w.fact('at', 'length')} from the pump along the drawn way; the ground there is at ${w.fact('ground', 'height')} and it must be ${w.fact('height', 'height')} tall.`,
    measure: (w) =>
      `Measure the drive pipe along the ground; a standpipe ${w.fact('at', 'length')} from the pump would settle it.`,
  },
  'standpipe-nowhere': {
    title: 'No place for a standpipe',
    sentence: (w) =>
      w.fact('short', 'length') === ''
        ? `At the best place on the drawn way the inlet of ${w.about} has ${w.value} of water more than it needs over it.`
        : `No place on the drawn way suits the drive pipe: the nearest misses its rules of length by ${w.fact('short', 'length')}.`,
    fails: (w) =>
      w.fact('short', 'length') === ''
        ? `Find ${w.fact('by', 'height')} of height for its inlet: lay a larger supply line, take less water, or draw the way so that the ground falls later.`
        : `Draw a way on which the drive pipe can be ${w.fact('by', 'length')} nearer to its rules.`,
    measure: (w) =>
      w.fact('short', 'length') === ''
        ? `Level the way from source to pump; ${w.fact('by', 'height')} more over the inlet would settle it.`
        : `Measure the way from source to pump; ${w.fact('by', 'length')} more would settle it.`,
  },
} as const satisfies Readonly<Record<string, FindingText>>;
