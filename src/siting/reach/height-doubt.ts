import { errorCovariance, placementVariance, smoothingVariance } from '../../terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres, SquareMetres } from '../../units/quantity.ts';

/** Covariance of two heights by their distance, looked up instead of reckoned: straight between a metre's steps. */
export class CovarianceByDistance {
  readonly #values: Float32Array;
  readonly #perMetre: number;

  constructor(accuracy: HeightAccuracy, most: Metres) {
    const step = Math.max(accuracy.cell / STEPS_PER_CELL, most / MOST_STEPS);
    const count = Math.ceil(most / step) + 2;
    this.#perMetre = 1 / step;
    this.#values = Float32Array.from({ length: count }, (_, k) => errorCovariance(accuracy, k * step));
  }

  at(distance: Metres): SquareMetres {
    const place = distance * this.#perMetre;
    const low = Math.min(Math.floor(place), this.#values.length - 2);
    const a = this.#values[low] as number;
    return a + ((this.#values[low + 1] as number) - a) * Math.min(1, place - low);
  }
}

const STEPS_PER_CELL = 4;
const MOST_STEPS = 200_000;

/** Variance of one height: the model's own error, where the point really is on its slope, and what its cells smooth away. */
export function ownVariance(accuracy: HeightAccuracy, slope: number, smoothing: Metres): SquareMetres {
  return (
    errorCovariance(accuracy, 0) + placementVariance(slope, accuracy.placement) + smoothingVariance(accuracy, smoothing)
  );
}
