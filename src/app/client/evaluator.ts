import { evaluate, type Ground } from '../../evaluation/evaluate/evaluate.ts';
import { sameQuestion } from '../../evaluation/evaluate/same-question.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import type { GroundedPlan } from './ground-feed.ts';
import type { OpenedTerrain } from './terrain-client.ts';

export interface Reckoned {
  readonly grounded: GroundedPlan;
  readonly evaluation: Evaluation;
}

/** Draws that take longer are preceded by the answer to first order, ms. */
export const PATIENCE = 30;

/**
 * Reckons plans on their ground: at once and to first order while something is dragged, else by draws in the worker. A newer
 * plan takes the place of an older one that is still being drawn; it is then answered to first order first, so that a key
 * held down shows new numbers all along.
 */
export class Reckoner {
  readonly #terrain: Pick<OpenedTerrain, 'about' | 'reckon'>;
  readonly #onReckoned: (reckoned: Reckoned) => void;
  #drawing: AbortController | null = null;
  /** The last answer that was drawn. */
  #drawn: Reckoned | null = null;

  constructor(terrain: Pick<OpenedTerrain, 'about' | 'reckon'>, onReckoned: (reckoned: Reckoned) => void) {
    this.#terrain = terrain;
    this.#onReckoned = onReckoned;
  }

  async reckon(grounded: GroundedPlan, { dragging }: { readonly dragging: boolean }): Promise<void> {
    const overtaking = this.#drawing !== null;
    this.close();
    const { plan, ground } = grounded;
    if (this.#drawn !== null && sameGrounded(this.#drawn.grounded, grounded)) {
      // Another name asks nothing anew.
      this.#onReckoned({ grounded, evaluation: this.#drawn.evaluation });
      return;
    }
    const known: Ground = {
      points: ground.points,
      lines: ground.lines,
      accuracy: accuracyFor(plan, this.#terrain.about),
    };
    const roughly = () => this.#onReckoned({ grounded, evaluation: evaluate(plan, known) });
    if (dragging || overtaking) roughly();
    if (!dragging) await this.#draw(grounded, known, overtaking ? null : roughly);
  }

  /** Lets go of what is still being drawn. */
  close(): void {
    this.#drawing?.abort();
    this.#drawing = null;
  }

  async #draw(grounded: GroundedPlan, known: Ground, whenLate: (() => void) | null): Promise<void> {
    const drawing = new AbortController();
    this.#drawing = drawing;
    const { signal } = drawing;
    const late = setTimeout(() => !signal.aborted && whenLate?.(), PATIENCE);
    try {
      const evaluation = await this.#terrain.reckon(grounded.plan, known, signal);
      if (signal.aborted) return;
      this.#drawn = { grounded, evaluation };
      this.#onReckoned(this.#drawn);
    } catch (error) {
      if (!signal.aborted) throw error;
    } finally {
      clearTimeout(late);
      if (this.#drawing === drawing) this.#drawing = null;
    }
  }
}

/** Whether a plan on its ground asks the same as another one. */
export function sameGrounded(a: GroundedPlan, b: GroundedPlan): boolean {
  return (
    sameQuestion(a.plan, b.plan) &&
    sameEntries(a.ground.points, b.ground.points) &&
    sameEntries(a.ground.lines, b.ground.lines)
  );
}

function sameEntries<K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>): boolean {
  return a.size === b.size && [...a].every(([key, value]) => b.get(key) === value);
}
