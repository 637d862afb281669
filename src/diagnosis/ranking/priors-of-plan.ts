import { CAUSES, type CauseCode } from '../model/causes.ts';
import type { Priors } from './ranking.ts';

/** How much likelier a cause is where the plan itself finds this: evidence beside the readings. Common practice, no source. */
export const EVIDENCE: Readonly<Record<string, Partial<Readonly<Record<CauseCode, number>>>>> = {
  'source-short': { 'level-sunk': 3, 'valve-heavy': 1.5 },
  'supply-short': { 'level-sunk': 3 },
  'supply-air': { 'level-sunk': 2, 'air-in-water': 1.5 },
  'drive-rises': { 'air-pocket': 2.5 },
  'valve-sticks': { 'level-sunk': 2, 'valve-heavy': 2, 'strainer-clogged': 1.5 },
  'valve-stays-shut': { 'no-back-pressure': 2, 'valve-light': 1.5 },
  'back-pressure': { 'no-back-pressure': 3 },
  'delivery-head': { 'no-back-pressure': 2 },
  siphon: { 'no-back-pressure': 3 },
  'siphon-breaks': { 'delivery-summit': 3 },
};

/** Weights of the causes for a plan with these findings. */
export function priorsOfPlan(findings: readonly string[]): Priors {
  const changed: Partial<Record<CauseCode, number>> = {};
  for (const code of findings) {
    for (const [cause, times] of Object.entries(EVIDENCE[code] ?? {}) as [CauseCode, number][]) {
      changed[cause] = (changed[cause] ?? CAUSES.find((one) => one.code === cause)?.prior ?? 0) * times;
    }
  }
  return changed;
}
