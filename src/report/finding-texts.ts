import type { FindingCode } from '../evaluation/findings/catalogue.ts';
import type { QuantityKind } from '../units/kind.ts';

/** What a sentence may use. */
export interface Words {
  /** Name of the point or route. */
  readonly about: string;
  /** The value with its range. */
  readonly value: string;
  readonly likely: string;
  readonly limit: string;
  /** A number that the finding carries, written in a kind's unit. */
  readonly fact: (name: string, kind: QuantityKind) => string;
  /** A word that the finding carries, turned into the reader's. */
  readonly text: (name: string) => string;
}

/** How one finding is told. */
export interface FindingText {
  readonly title: string;
  readonly sentence: (w: Words) => string;
  /** What to do when it fails. */
  readonly fails: (w: Words) => string;
  /** What to do when it must be measured. */
  readonly measure: (w: Words) => string;
}

/** When air goes in, where the level sinks. */
const sinking = (w: Words) => {
  const after = w.fact('air', 'duration');
  return after === '' ? '' : ` At the likely figures the level sinks and air goes in after ${after}.`;
};

const always = (text: string) => () => text;

export const FINDING_TEXTS: Readonly<Record<FindingCode, FindingText>> = {
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
      `Nowhere on the drawn way can ${w.about} stand so that the drive pipe keeps its length and the supply line brings enough.`,
    fails: always('Lay a larger supply line, take less water, or draw the way so that the ground falls later.'),
    measure: always('Level the way from source to pump.'),
  },
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
  'back-pressure': {
    title: 'Back pressure',
    sentence: (w) =>
      `At ${w.about} the delivery pushes back with ${w.value} times the fall; the waste valve needs ${w.limit} to fall open again.`,
    fails: (w) =>
      `Lead the delivery over a vented high point at ${w.fact('level', 'height')} or more, or throttle it at the pump; as drawn the pump stops with its valve shut.`,
    measure: always('Level fall and outlet; be ready to throttle the delivery at the pump.'),
  },
  'delivery-head': {
    title: 'Delivery head',
    sentence: (w) => `The head that pushes back from ${w.about} is ${w.value}; ${w.limit} is enough for most pumps.`,
    fails: always('Raise the outlet or throttle the delivery at the pump.'),
    measure: always('Level the outlet against the pump; be ready to throttle the delivery.'),
  },
  'lift-over-fall': {
    title: 'Lift against fall',
    sentence: (w) =>
      `Water for ${w.about} goes up ${w.value} times the fall; beyond ${w.limit} printed efficiencies fall below the planning band.`,
    fails: always('Find more fall or a lower tank: what is shown for the delivery is too hopeful.'),
    measure: always('Level fall and lift; what is shown for the delivery may be too hopeful.'),
  },
  'lift-out-of-reach': {
    title: 'Reach of the pressure wave',
    sentence: (w) =>
      `${w.about} asks for a delivery head of ${w.value}; the drive pipe’s pressure wave reaches ${w.limit}.`,
    fails: always('Use a stiffer drive pipe (steel instead of plastic), or choose a lower tank.'),
    measure: always('Level the lift; a stiffer drive pipe reaches higher.'),
  },
  'ram-stops': {
    title: 'Does the ram beat?',
    sentence: (w) => `As described, ${w.about} does not beat at these heads: ${w.text('reason')}.`,
    fails: always('Change the weight or spring of the waste valve, the drive pipe or the place of the pump.'),
    measure: always('Check the numbers of the ram.'),
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
  siphon: {
    title: 'Water siphons over a rise',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure head at the crest ${w.fact('at', 'length')} from the pump is ${w.value}.`,
    fails: (w) =>
      `Fit a vent at the crest ${w.fact('at', 'length')} from the pump: without it the water sucks itself over and takes the back pressure away.`,
    measure: (w) => `Level the crest ${w.fact('at', 'length')} from the pump; fit a vent there when in doubt.`,
  },
  'siphon-breaks': {
    title: 'Siphon breaks',
    sentence: (w) =>
      `With the line to ${w.about} full, the pressure head at the crest is ${w.value}; below ${w.limit} at this height above the sea the water column breaks.`,
    fails: (w) => `Fit a vent at the crest ${w.fact('at', 'length')} from the pump; what flows beyond it is then open.`,
    measure: (w) => `Level the crest ${w.fact('at', 'length')} from the pump, or fit a vent there.`,
  },
  'friction-share': {
    title: 'Friction of the delivery line',
    sentence: (w) => `Friction on the way to ${w.about} takes ${w.value} of the lift; ${w.limit} is a good bound.`,
    fails: always('Choose the next larger delivery pipe.'),
    measure: always('Choose the next larger delivery pipe, or measure what arrives.'),
  },
  'need-unmet': {
    title: 'Delivery against the need',
    sentence: (w) => `${w.about} gets ${w.value}; the herd needs ${w.limit}.`,
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
    sentence: (w) => `${w.about} brings ${w.value} with the float valve open; the herd needs ${w.limit}.`,
    fails: always('Lay a larger pipe or find more height above the trough.'),
    measure: always('Level the trough against the outlet that feeds it.'),
  },
  'storage-short': {
    title: 'Water in store',
    sentence: (w) => `A full ${w.about} lasts the herd ${w.value}; ${w.limit} tide over a stopped pump.`,
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
};
