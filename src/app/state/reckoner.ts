import { evaluate, type Ground } from '../../evaluation/evaluate.ts';
import type { Evaluation } from '../../evaluation/evaluation.ts';
import { accuracyFor } from '../../evaluation/plan-accuracy.ts';
import type { OpenedTerrain } from '../terrain-client.ts';
import type { GroundedPlan } from './ground-feed.ts';

export interface Reckoned {
  readonly grounded: GroundedPlan;
  readonly evaluation: Evaluation;
}

/**
 * Reckons plans on their ground: at once and to first order while something is dragged, else by draws in the worker. A newer
 * plan takes the place of an older one that is still being drawn.
 */
export class Reckoner {
  readonly #terrain: OpenedTerrain;
  readonly #onReckoned: (reckoned: Reckoned) => void;
  #stop = new AbortController();

  constructor(terrain: OpenedTerrain, onReckoned: (reckoned: Reckoned) => void) {
    this.#terrain = terrain;
    this.#onReckoned = onReckoned;
  }

  async reckon(grounded: GroundedPlan, { dragging }: { readonly dragging: boolean }): Promise<void> {
    this.#stop.abort();
    const stop = new AbortController();
    this.#stop = stop;
    const { plan, ground } = grounded;
    const known: Ground = {
      points: ground.points,
      lines: ground.lines,
      accuracy: accuracyFor(plan, this.#terrain.about),
    };
    if (dragging) {
      this.#onReckoned({ grounded, evaluation: evaluate(plan, known) });
      return;
    }
    try {
      const evaluation = await this.#terrain.reckon(plan, known, stop.signal);
      if (!stop.signal.aborted) this.#onReckoned({ grounded, evaluation });
    } catch (error) {
      if (!stop.signal.aborted) throw error;
    }
  }

  /** Lets go of what is still being drawn. */
  close(): void {
    this.#stop.abort();
  }
}
