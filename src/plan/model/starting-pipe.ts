import { roughnessOf, type Surface } from '../../handbook/roughness.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PipeMaterial, PlanPipe, RouteRole } from './plan.ts';

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

/** Common practice, no source: round figures that stand for no product. Drive pipes are steel because they take the blows. */
const sizes: Readonly<Record<RouteRole, StartingSize>> = {
  supply: { material: 'pe', bore: 0.05, wall: 0.005 },
  drive: { material: 'steel', bore: 0.04, wall: 0.004 },
  delivery: { material: 'pe', bore: 0.02, wall: 0.002 },
  gravity: { material: 'pe', bore: 0.025, wall: 0.0025 },
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
export function startingPipe(role: RouteRole): NewPipe {
  const size = sizes[role];
  return {
    kind: 'own',
    label: notChosenYet,
    ...size,
    roughness: roughnessOf(surfaces[size.material]).value,
    rating: null,
  };
}
