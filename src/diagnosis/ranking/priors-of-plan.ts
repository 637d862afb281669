import { CAUSES, type CauseCode } from '../model/causes.ts';
import type { RamState } from '../model/readings.ts';
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

/** The same where the ram as it is described stands already when nothing is wrong with it. */
const STANDING: Readonly<Record<RamState, Partial<Readonly<Record<CauseCode, number>>>>> = {
  runs: {},
  'stopped-shut': { 'no-back-pressure': 12, healthy: 0.05 },
  'stopped-open': { 'level-sunk': 3, 'valve-heavy': 6, healthy: 0.05 },
};

/** Weights of the causes for a plan with these findings. */
export function priorsOfPlan(findings: readonly string[]): Priors {
  return raised(findings.map((code) => EVIDENCE[code] ?? {}));
}

/** Weights of the causes for a ram that does so when it is well. */
export function priorsOfWell(state: RamState | null): Priors {
  return raised([STANDING[state ?? 'runs']]);
}

function raised(evidence: readonly Partial<Readonly<Record<CauseCode, number>>>[]): Priors {
  const changed: Partial<Record<CauseCode, number>> = {};
  for (const causes of evidence) {
    for (const [cause, times] of Object.entries(causes) as [CauseCode, number][]) {
      changed[cause] = (changed[cause] ?? CAUSES.find((one) => one.code === cause)?.prior ?? 0) * times;
    }
  }
  return changed;
}
