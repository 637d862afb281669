import { roughnessOf, type Surface } from '../../handbook/roughness.ts';
import { INCH_M } from '../../units/factor.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PipeMaterial, PlanPipe, RouteRole, UnitSystem } from './plan.ts';

type WithoutId<Pipe> = Pipe extends unknown ? Omit<Pipe, 'id'> : never;
/** A pipe that has no id in a plan yet. */
export type NewPipe = WithoutId<PlanPipe>;

/** The label of a pipe that nobody has chosen. */
export const notChosenYet = 'Not chosen yet';

interface StartingSize {
  readonly material: PipeMaterial;
  readonly bore: Metres;
  readonly wall: Metres;
}

/** Common practice, no source: round figures, in either system of units, that stand for no product. Drive pipes are steel because they take the blows. */
const sizes: Readonly<Record<UnitSystem, Readonly<Record<RouteRole, StartingSize>>>> = {
  metric: {
    supply: { material: 'pe', bore: 0.05, wall: 0.005 },
    drive: { material: 'steel', bore: 0.04, wall: 0.004 },
    delivery: { material: 'pe', bore: 0.02, wall: 0.002 },
    gravity: { material: 'pe', bore: 0.025, wall: 0.0025 },
  },
  us: {
    supply: { material: 'pe', bore: 2 * INCH_M, wall: 0.2 * INCH_M },
    drive: { material: 'steel', bore: 1.5 * INCH_M, wall: 0.15 * INCH_M },
    delivery: { material: 'pe', bore: 0.75 * INCH_M, wall: 0.08 * INCH_M },
    gravity: { material: 'pe', bore: INCH_M, wall: 0.1 * INCH_M },
  },
};

const surfaces: Readonly<Record<PipeMaterial, Surface>> = {
  pe: 'smooth-plastic',
  pvc: 'smooth-plastic',
  copper: 'copper',
  steel: 'steel-galvanised',
};

/**
 * The pipe that a new route is laid in until the user chooses one: a described pipe, not a row of the handbook, labelled as
 * not chosen, and without a rating, so that nothing is said to be strong enough.
 */
export function startingPipe(role: RouteRole, units: UnitSystem = 'metric'): NewPipe {
  const size = sizes[units][role];
  return {
    kind: 'own',
    label: notChosenYet,
    ...size,
    roughness: roughnessOf(surfaces[size.material]).value,
    rating: null,
  };
}
