import type { Verdict } from '../evaluation/estimate.ts';
import type { Evaluation } from '../evaluation/evaluation.ts';
import type { Plan, RouteId } from '../plan/plan.ts';
import type { UnitSystem } from '../units/kind.ts';
import { findingWords } from './finding-words.ts';
import { nameOf } from './measure-words.ts';

/** What stands against one line, and what to do about it. */
export interface LineRemark {
  readonly code: string;
  readonly verdict: Verdict;
  readonly sentence: string;
  readonly remedy: string;
}

/** The findings about a line that do not hold. */
export function lineRemarks(
  plan: Plan,
  evaluation: Evaluation,
  { route, units }: { readonly route: RouteId; readonly units: UnitSystem },
): readonly LineRemark[] {
  return evaluation.findings
    .filter(({ about, verdict }) => about === route && verdict !== 'holds')
    .map((finding) => {
      const { sentence, remedy } = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
      return { code: finding.code, verdict: finding.verdict, sentence, remedy };
    });
}
