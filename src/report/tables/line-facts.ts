import type { Evaluation, LineResult } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
import { TERMS } from '../words/terms.ts';

/** One number of a route with its name, for a list or a table. */
export interface LineFact {
  readonly field: string;
  readonly name: string;
  readonly words: string;
  readonly value: number;
}

/** What is known of a route, in the order in which one asks for it; what is unknown is left out. */
export function lineFacts(line: LineResult, units: UnitSystem): readonly LineFact[] {
  const rows: readonly (readonly [string, string, number | null | undefined, QuantityKind])[] = [
    ['horizontal', TERMS.onMap.plain, line.horizontal, 'length'],
    ['slope', 'Length along the ground', line.slope, 'length'],
    ['start', 'Ground at its start', line.start, 'height'],
    ['end', 'Ground at its end', line.end, 'height'],
    ['highest', 'Highest ground', line.highest, 'height'],
    ['lowest', 'Lowest ground', line.lowest, 'height'],
    ['void', 'Stretches without heights', line.void > 0 ? line.void : null, 'length'],
    ['flow', 'Flow as planned', line.flow, 'flow'],
    ['velocity', 'Speed of the water', line.velocity, 'velocity'],
    ['friction', TERMS.friction.plain, line.friction, 'height'],
    ['pressure-still', 'Highest pressure with no flow', line.pressure?.still, 'pressure'],
    ['pressure-running', 'Highest pressure while running', line.pressure?.running, 'pressure'],
    ['pressure-blocked', 'Highest pressure if the delivery is shut', line.pressure?.blocked, 'pressure'],
    ['rating', TERMS.rating.plain, line.rating, 'pressure'],
  ];
  return rows.flatMap(([field, name, value, kind]) =>
    value == null ? [] : [{ field, name, value, words: writeQuantity(value, kind, units) }],
  );
}

/** What stands against one line, and what to do about it. */
interface LineRemark {
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
