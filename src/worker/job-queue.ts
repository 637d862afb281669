/** Jobs that wait their turn, the most urgent first and among equals the newest, a few at once. */
export class JobQueue {
  readonly #atOnce: number;
  readonly #nextTurn: (run: () => void) => void;
  readonly #waiting: { readonly urgency: number; readonly run: () => Promise<void> }[] = [];
  #running = 0;

  /** `nextTurn` lets the messages that have arrived be read before the next job starts. */
  constructor(atOnce: number, nextTurn: (run: () => void) => void) {
    this.#atOnce = atOnce;
    this.#nextTurn = nextTurn;
  }

  add(urgency: number, run: () => Promise<void>): void {
    this.#waiting.push({ urgency, run });
    this.#nextTurn(() => this.#start());
  }

  #start(): void {
    if (this.#running >= this.#atOnce) return;
    const job = this.#takeMostUrgent();
    if (!job) return;
    this.#running += 1;
    job.run().finally(() => {
      this.#running -= 1;
      this.#nextTurn(() => this.#start());
    });
  }

  #takeMostUrgent() {
    let best = this.#waiting.length - 1;
    for (let at = best - 1; at >= 0; at -= 1) {
      if ((this.#waiting[at]?.urgency ?? 0) > (this.#waiting[best]?.urgency ?? 0)) best = at;
    }
    return this.#waiting.splice(best, 1)[0];
  }
}
