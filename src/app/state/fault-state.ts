import { signal } from '@preact/signals';

/** Something in the planner itself that failed: where, what it said, and what a developer wants to see. */
export interface Fault {
  /** The part of the page that cannot be shown; null where it was none. */
  readonly part: string | null;
  readonly message: string;
  readonly details: string;
}

/** The fault that the page tells of at the moment. */
export const fault = signal<Fault | null>(null);
