import { pipeRow, ratingAt } from '../../handbook/pipe-rows.ts';
import { roughnessOf } from '../../handbook/roughness.ts';
import { deratingFactor, lastTemperature } from '../../handbook/temperature-derating.ts';
import type { PipeMaterial, PlanPipe } from '../../plan/model/plan.ts';
import type { Celsius, Metres, Pascals, Ratio } from '../../units/quantity.ts';
import { type Spread, within95 } from '../statistics/compare.ts';
import { Z975 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';

/** A pipe winds a little more or less on the ground than the line drawn for it, and its ends are set by eye. */
const WINDING: Ratio = TOLERANCES.winding.value;
const ENDS: Metres = TOLERANCES.ends.value;

/** The length of a line as it will be laid, m, where `drawn` is the length along the ground of the line as drawn. */
export function laidLength(drawn: Metres): Spread {
  const reach = Math.hypot(WINDING * drawn, ENDS);
  return within95({ low: Math.max(drawn / 2, drawn - reach), likely: drawn, high: drawn + reach });
}

/** Standard deviation of the logarithm of a laid length. */
export function lengthDoubt(drawn: Metres): Ratio {
  return drawn > 0 ? Math.hypot(WINDING, Math.min(ENDS / drawn, 1 / 2)) / Z975 : 0;
}

/** A pipe of the plan with its numbers, whether from the handbook or the user's own. */
export interface PipeOfPlan {
  readonly label: string;
  readonly material: PipeMaterial;
  readonly bore: Metres;
  readonly wall: Metres;
  readonly roughness: Metres;
  /** Ends of what the bore and the roughness may be by their tolerances. */
  readonly boreLow: Metres;
  readonly boreHigh: Metres;
  readonly roughnessLow: Metres;
  readonly roughnessHigh: Metres;
  /** Rating at the plan's water temperature; null when unknown. */
  readonly rating: Pascals | null;
  /** Temperature above which its rating says nothing; null where it has none, or keeps it. */
  readonly ratedTo: Celsius | null;
}

const OWN_BORE: Ratio = TOLERANCES.ownBore.value;
const OWN_ROUGHNESS: Ratio = TOLERANCES.ownRoughness.value;

/** Roughness over bore just within what the friction laws are defined for: below a half. */
const ROUGHEST: Ratio = 0.49;

/** A pipe's bore with its tolerance. */
export function boreSpread({ bore, boreLow, boreHigh }: PipeOfPlan): Spread {
  return within95({ low: boreLow, likely: bore, high: boreHigh });
}

/** The numbers of a plan's pipe. A row that the handbook lost is a wrong program: plans are read against the handbook. */
export function pipeOfPlan(pipe: PlanPipe, temperature: Celsius): PipeOfPlan {
  if (pipe.kind === 'own') {
    const kept = deratingFactor(pipe.material, temperature);
    const { bore, roughness } = pipe;
    return {
      ...pipe,
      boreLow: bore * (1 - OWN_BORE),
      boreHigh: bore * (1 + OWN_BORE),
      roughnessLow: roughness / OWN_ROUGHNESS,
      // A plan may state a wall that is nearly as rough as any friction law reaches; its doubt ends there too.
      roughnessHigh: Math.min(roughness * OWN_ROUGHNESS, ROUGHEST * bore * (1 - OWN_BORE)),
      rating: pipe.rating === null || kept === null ? null : pipe.rating * kept,
      ratedTo: pipe.rating === null ? null : lastTemperature(pipe.material),
    };
  }
  const row = pipeRow(pipe.row);
  if (row === null) throw new Error(`found pipe row ${pipe.row}, expected one of the handbook`);
  const { low, high } = roughnessOf(row.surface);
  const rating = ratingAt(row, temperature);
  const ratedTo = row.rating === null ? null : lastTemperature(row.derating);
  return { ...row, roughnessLow: low, roughnessHigh: high, rating, ratedTo };
}
