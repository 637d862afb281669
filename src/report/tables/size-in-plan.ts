import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { answerSentence, answerVerdict } from '../findings/answer-words.ts';

/** The pump in the plan, told by what the plan's own answer says of it and not by an ordinary ram of its bore. */
export function sizeInPlan(
  plan: Plan,
  { answer, pump }: Pick<Evaluation, 'answer' | 'pump'>,
): {
  readonly verdict: Verdict;
  readonly sentence: string;
  readonly takes: Estimate | null;
  readonly perDay: Estimate | null;
} {
  return {
    verdict: answerVerdict(answer) ?? 'measure',
    sentence: `in the plan now, by its own figures: ${answerSentence(answer, plan)}`,
    takes: pump?.driveFlow ?? null,
    perDay: answer.arrives.ifRunningPerDay,
  };
}
