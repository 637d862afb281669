/** A figure of the plan by its plain word, and what it is in a few more; the trade's own term where one learns it. */
export interface Term {
  readonly plain: string;
  readonly hint: string;
  /** The word of the glossary that explains it. */
  readonly glossary?: string;
}

/**
 * The one list of what figures are called: on the page, on paper, in tables to keep and on the command line. A word stands for one
 * thing, and one thing has one word.
 */
export const TERMS = {
  fall: { plain: 'Working fall', hint: 'water in the standpipe above the waste valve', glossary: 'fall' },
  fallAtRest: {
    plain: 'Fall with no flow',
    hint: 'water at the source above the waste valve',
    glossary: 'static, at rest',
  },
  driveFlow: { plain: 'Drive flow', hint: 'what the pump uses', glossary: 'intake, drive flow' },
  supplyLimit: { plain: 'Most the supply line can carry', hint: 'more draws air in', glossary: 'supply line' },
  sourceFlow: { plain: 'You measured', hint: 'at the source', glossary: 'yield' },
  available: { plain: 'You can use', hint: 'in the dry season, less what stays in the stream', glossary: 'yield' },
  lift: { plain: 'Lift', hint: 'from the waste valve to the tank’s inlet', glossary: 'lift' },
  governingLift: {
    plain: 'Highest lift on the way',
    hint: 'to the tank, or over a vented high point',
    glossary: 'governing lift',
  },
  liftOverFall: { plain: 'Lift and friction, times the fall', hint: '', glossary: 'lift over fall' },
  arrives: { plain: 'Arrives a day', hint: '', glossary: 'delivery' },
  needed: { plain: 'Needed a day', hint: '' },
  stored: { plain: 'Days in store', hint: 'how long a full tank lasts' },
  ground: { plain: 'Ground', hint: 'above sea level' },
  level: { plain: 'Water or valve level', hint: 'above sea level' },
  alongGround: { plain: 'Along the ground', hint: '' },
  onMap: { plain: 'Length on the map', hint: '' },
  highestPressure: { plain: 'Highest pressure', hint: '' },
  rating: { plain: 'Pipe rating', hint: '', glossary: 'rating, pressure class' },
  friction: { plain: 'Lost to friction', hint: '', glossary: 'friction, head loss' },
  troughFlow: { plain: 'Flow, valve open', hint: '' },
  stillHead: { plain: 'Pressure, valve shut', hint: 'as a height of water', glossary: 'head' },
  belowSource: { plain: 'Below the source', hint: '' },
  verdict: { plain: 'Works?', hint: '', glossary: 'OK, check on site, fails' },
} as const satisfies Readonly<Record<string, Term>>;

/** A figure's word inside a sentence or a row of words. */
export function inSentence({ plain }: Term): string {
  return plain.charAt(0).toLowerCase() + plain.slice(1);
}
