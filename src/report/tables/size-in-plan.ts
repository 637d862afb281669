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

/** Where the plan does not run as drawn, what the sizes are worth; empty where nothing stands against it. */
export function sizesCaveat({ answer }: Pick<Evaluation, 'answer'>): string {
  const stands = answer.state === 'stops' || answer.state === 'pours';
  return stands
    ? 'As drawn the plan does not run, with any size: mend first what the answer says. The sizes are those that would suit then.'
    : '';
}
