/**
 * A running sum that carries the digits ordinary addition drops, so that 100 000 short pieces add up to their true length.
 *
 * s ← s + v; c ← c + what was lost. The error stays near one rounding whatever the number of terms.
 * Source: A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, ZAMM 54, 1974, algorithm IV.
 */
export class CompensatedSum {
  #sum = 0;
  #lost = 0;

  add(value: number): void {
    const next = this.#sum + value;
    this.#lost += Math.abs(this.#sum) >= Math.abs(value) ? this.#sum - next + value : value - next + this.#sum;
    this.#sum = next;
  }

  get value(): number {
    return this.#sum + this.#lost;
  }
}
