const MOST_STEPS = 100;
const TOLERANCE = 1e-12;

/**
 * Where a rising function passes zero between 0 and `high`; `high` where it has not done so by then, 0 where it starts above.
 *
 * Regula falsi with the Illinois rule: the end that stays is weighted down, so that both ends close in. To 1e-12 of the root.
 * Source: M. Dowell and P. Jarratt, A modified regula falsi method, BIT 11, 1971 (from memory).
 */
export function risingRoot(f: (x: number) => number, high: number): number {
  let [a, b] = [0, high];
  let [fa, fb] = [f(a), f(b)];
  if (fb <= 0) return b;
  if (fa >= 0) return a;
  let stayed = 0;
  let x = b;
  for (let i = 0; i < MOST_STEPS; i++) {
    const next = (a * fb - b * fa) / (fb - fa);
    const done = Math.abs(next - x) <= TOLERANCE * x;
    x = next;
    if (done) break;
    const fx = f(x);
    if (fx < 0) {
      [a, fa] = [x, fx];
      if (stayed > 0) fb /= 2;
      stayed = 1;
    } else {
      [b, fb] = [x, fx];
      if (stayed < 0) fa /= 2;
      stayed = -1;
    }
  }
  return x;
}
