import type { Plan } from '../../plan/model/plan.ts';
import { answerSentence, answerVerdict, arrivesSentence, firstSentence } from '../../report/findings/answer-words.ts';
import { openedFrom } from '../state/address-state.ts';
import { evaluation, grounded, savedPlan, terrain } from '../state/store.ts';

/**
 * A plan as it is saved: with the answer that it has now, so that it can be read without its elevation file. An answer that
 * came with the file stays while nothing was changed; one that the plan has outgrown goes.
 */
export function withAnswerKept(plan: Plan): Plan {
  const { lastAnswer: _, ...bare } = plan;
  const known = grounded.value;
  const answer = known !== null && known.plan === plan ? (evaluation.value?.answer ?? null) : null;
  if (answer === null || openedFrom.value.length === 0)
    return plan === savedPlan.value && terrain.value === null ? plan : bare;
  const sentences = [answerSentence(answer, plan), arrivesSentence(answer, plan), firstSentence(answer, plan)];
  return {
    ...bare,
    lastAnswer: {
      on: today(),
      verdict: answerVerdict(answer),
      files: openedFrom.value,
      sentences: sentences.filter((sentence) => sentence !== ''),
    },
  };
}

/** The day here, in the order that sorts. */
export function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
