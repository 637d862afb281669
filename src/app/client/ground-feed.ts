import type { Plan } from '../../plan/model/plan.ts';
import { GroundCache, type GroundSource, type PlanGround } from './ground-cache.ts';

/** A plan with the ground it lies on; the two always belong together. */
export interface GroundedPlan {
  readonly plan: Plan;
  readonly ground: PlanGround;
}

export interface GroundFeedEvents {
  onGround(grounded: GroundedPlan): void;
  onBusy(busy: boolean): void;
  onFailed(error: unknown): void;
}

/**
 * Brings each plan together with its ground. One question is under way at a time; plans that come meanwhile replace each
 * other, so that a drag shows every answer that arrives and ends with the newest plan.
 */
export class GroundFeed {
  readonly #terrain: GroundSource;
  readonly #events: GroundFeedEvents;
  readonly #cache = new GroundCache();
  readonly #stop = new AbortController();
  #busy = false;
  #next: Plan | null = null;

  constructor(terrain: GroundSource, events: GroundFeedEvents) {
    this.#terrain = terrain;
    this.#events = events;
  }

  /** Publishes the plan at once when its ground is known, else as soon as the terrain answers. */
  follow(plan: Plan): void {
    const ground = this.#cache.known(plan);
    if (ground !== null) {
      this.#next = null;
      this.#events.onGround({ plan, ground });
      return;
    }
    this.#next = plan;
    if (!this.#busy) void this.#work();
  }

  /** Lets go of the terrain; nothing is published afterwards. */
  close(): void {
    this.#next = null;
    this.#stop.abort();
  }

  async #work(): Promise<void> {
    this.#setBusy(true);
    try {
      while (this.#next !== null) await this.#answer(this.#next);
    } catch (error) {
      this.#next = null;
      if (!this.#stop.signal.aborted) this.#events.onFailed(error);
    } finally {
      this.#setBusy(false);
    }
  }

  async #answer(plan: Plan): Promise<void> {
    await this.#cache.fetch(plan, this.#terrain, this.#stop.signal);
    if (this.#stop.signal.aborted) return;
    const overtaken = this.#next === null;
    if (this.#next === plan) this.#next = null;
    const ground = this.#cache.known(plan);
    if (ground !== null && !overtaken) this.#events.onGround({ plan, ground });
  }

  #setBusy(busy: boolean): void {
    this.#busy = busy;
    this.#events.onBusy(busy);
  }
}
