import type { PointRole, RouteRole } from '../../plan/model/plan.ts';

/** A caution: what it is about, the short of it for page one, and the rest. */
export interface Caution {
  readonly title: string;
  readonly short: string;
  readonly more: string;
}

/** What no plan may be handed on without; docs/cautions.md says the same at length. */
export const CAUTIONS: readonly Caution[] = [
  {
    title: 'Pressure and water hammer',
    short: 'The drive pipe, the pump and its anchor take blows of several times the pressure of the lift, for years.',
    more: 'Shut off at the delivery, the pressure climbs until something gives. Use pipe and fittings rated for the blocked pressure, anchor the pump, and let the pressure off before anything is opened. A closed air chamber under pressure is stored energy.',
  },
  {
    title: 'Digging and buried services',
    short: 'Have cables, mains and drains located before anything is dug; no elevation file shows them.',
    more: 'Keep trenches shored and animals out.',
  },
  {
    title: 'Drinking water is not made safe',
    short: 'Nothing here treats or tests water.',
    more: 'Spring and stream water carries germs and more. Water for people needs testing and treatment by the rules of the place, and no cross-connection with a public supply.',
  },
  {
    title: 'Permits and water rights',
    short:
      'Taking water, damming, crossing a stream and letting waste water out may each need a permit, on your own land too.',
    more: 'So may digging in a wet meadow. Others downstream, and the stream itself, have a claim to the water.',
  },
  {
    title: 'The stream must keep enough',
    short: 'How much to leave is for law and ecology.',
    more: 'The planner has no default for it.',
  },
  {
    title: 'The dry season',
    short: 'A spring read in a wet month says little about a dry one.',
    more: 'Read it in the driest weeks; the planner has no default for that either.',
  },
  {
    title: 'Frost',
    short: 'Full pipes burst, vents and float valves freeze, and a stopped ram freezes first.',
    more: 'Bury below frost depth, or drain.',
  },
  {
    title: 'Animals',
    short: 'A system that stops on a hot day is an emergency.',
    more: 'Keep enough water in store for the time it takes to notice and mend.',
  },
  {
    title: 'Steep and wet ground',
    short: 'Springs lie there; do not survey it alone.',
    more: '',
  },
];

/** Which cautions bear on a part of the plan, by their titles. */
const BEARS_ON: Readonly<Record<PointRole | RouteRole, readonly string[]>> = {
  source: ['Permits and water rights', 'Drinking water is not made safe', 'The stream must keep enough'],
  standpipe: ['Frost'],
  pump: ['Pressure and water hammer', 'Steep and wet ground'],
  tank: ['Animals', 'Drinking water is not made safe'],
  trough: ['Frost', 'Animals'],
  supply: ['Digging and buried services', 'Frost'],
  drive: ['Pressure and water hammer', 'Digging and buried services'],
  delivery: ['Pressure and water hammer', 'Digging and buried services', 'Frost'],
  gravity: ['Digging and buried services', 'Frost'],
};

/** The cautions that a part of the plan must be looked at with. */
export function cautionsFor(role: PointRole | RouteRole): readonly Caution[] {
  return CAUTIONS.filter(({ title }) => BEARS_ON[role].includes(title));
}

export const CODES_DECIDE =
  'Local codes and licensed practice decide; where they differ from anything here, they are right.';

/** What the numbers are worth. */
export const NUMBERS_ARE_WORTH =
  'Heights come from the elevation file that was given; its errors are shown as spreads, not removed. A plan that holds is a reason to go and measure, not to buy pipe.';

export const MODEL_NOT_VALIDATED =
  'The efficiency of the pump is compared with seven published rams, of which five lie within its band; the model of the beat leaves out leakage, wear, air and the give of the body, and four published rams reached half to nine tenths of what it says. A measured intake and delivery, entered in the plan, is worth more than either.';
