import { always, type FindingText, type Words } from './finding-text.ts';

/** When air goes in, where the level sinks. */
const sinking = (w: Words) => {
  const after = w.fact('air', 'duration');
  return after === '' ? '' : ` At the likely figures the level sinks and air goes in after ${after}.`;
};

/** How findings on ground, source, supply line and standpipe are told. */
export const SOURCE_TEXTS = {
  'ground-unknown': {
    title: 'Ground unknown on the way',
    sentence: (w) => `The DEM has no height along ${w.value} of ${w.about}.`,
    fails: always('Walk this stretch and level its high and low points.'),
    measure: always('Walk this stretch and level its high and low points, or bring a DEM that covers it.'),
  },
  'point-unknown': {
    title: 'No height here',
    sentence: (w) => `The DEM has no height under ${w.about}.`,
    fails: always('Enter a measured level for this point.'),
    measure: always('Level this point from another one and enter the difference, or bring a DEM that covers it.'),
  },
  'across-files': {
    title: 'Heights from two files',
    sentence: (w) =>
      `The height of ${w.about} comes from ${w.text('file')}, that of the place it is compared with from ${w.text('other')}; files may differ by more than each by itself.`,
    fails: always('Level the difference on site.'),
    measure: always('Level the difference on site, or bring one file that covers both.'),
  },
  'yield-unread': {
    title: 'Yield of the source not known',
    sentence: (w) => `Nobody has said what ${w.about} gives.`,
    fails: always('Time the filling of a bucket at least three times, in the driest weeks.'),
    measure: always('Time the filling of a bucket at least three times, in the driest weeks, and enter the times.'),
  },
  'fall-small': {
    title: 'Fall',
    sentence: (w) => `The fall while running is ${w.value}; rams are built for ${w.limit} and more.`,
    fails: always('Move the pump lower or the source of the drive pipe higher.'),
    measure: always('Level the fall from the water at the source to the waste valve before anything is dug.'),
  },
  'source-short': {
    title: 'Source against the pump’s need',
    sentence: (w) => `${w.about} may give ${w.value}; the pump needs ${w.limit} to keep beating.${sinking(w)}`,
    fails: (w) => `Choose a smaller pump or set its waste valve to take less than ${w.likely}.`,
    measure: always('Time the source again in the driest weeks; until then choose the pump that needs less.'),
  },
  'supply-short': {
    title: 'Supply line against the pump’s need',
    sentence: (w) => `${w.about} brings ${w.value} before the standpipe draws air; the pump needs ${w.limit}.`,
    fails: always('Lay a larger supply line, shorten it, or let the standpipe stand lower so that more head feeds it.'),
    measure: always('Level the standpipe’s inlet against the water at the source, or lay the next larger pipe.'),
  },
  'supply-air': {
    title: 'High point on the supply line',
    sentence: (w) =>
      `The water line of ${w.about} passes ${w.value} above its high point ${w.fact('at', 'length')} from the source.`,
    fails: (w) =>
      `Take the pipe lower at ${w.fact('at', 'length')} from the source or lead it round: air gathers there and stops the flow.`,
    measure: (w) => `Level the ground ${w.fact('at', 'length')} from the source; fit a vent there if it stands out.`,
  },
  'supply-bore': {
    title: 'Bore of the supply line',
    sentence: (w) =>
      `${w.about} has a bore of ${w.fact('bore', 'bore')}, ${w.likely} times that of the drive pipe; one size larger is ${w.limit} times or more.`,
    fails: always('Lay the supply line at least one size larger than the drive pipe.'),
    measure: always('Check the bores of both pipes.'),
  },
  'standpipe-low': {
    title: 'Top of the standpipe',
    sentence: (w) =>
      `The top of ${w.about} stands ${w.value} above the water at the source; ${w.limit} keeps it from spilling.`,
    fails: always('Make the standpipe taller, or let it spill on purpose where that does no harm.'),
    measure: always('Level the ground at the standpipe against the water at the source before it is cut to length.'),
  },
  'standpipe-place': {
    title: 'Place of the standpipe',
    sentence: (w) =>
      `${w.about} stands ${w.value} off the stretch on which the drive pipe keeps its length and the supply line brings enough.`,
    fails: (w) =>
      `Move it to ${w.fact('at', 'length')} from the pump along the drawn way; the ground there is at ${w.fact('ground', 'height')} and it must be ${w.fact('height', 'height')} tall.`,
    measure: (w) => `Look at the place ${w.fact('at', 'length')} from the pump along the drawn way.`,
  },
  'standpipe-nowhere': {
    title: 'No place for a standpipe',
    sentence: (w) =>
      w.fact('short', 'length') === ''
        ? `At the best place on the drawn way the inlet of ${w.about} has ${w.value} of water more than it needs over it.`
        : `No place on the drawn way suits the drive pipe: the nearest misses its rules of length by ${w.fact('short', 'length')}.`,
    fails: always('Lay a larger supply line, take less water, or draw the way so that the ground falls later.'),
    measure: always('Level the way from source to pump.'),
  },
} as const satisfies Readonly<Record<string, FindingText>>;
