import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';

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
