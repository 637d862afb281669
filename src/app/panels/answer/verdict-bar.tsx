import { answerSentence, answerVerdict } from '../../../report/findings/answer-words.ts';
import { evaluation, groundBusy, plan, terrain } from '../../state/store.ts';
import { VerdictMark } from '../fields/role-icon.tsx';

/** The verdict of the whole plan; it stays in view whichever panel is open. */
export function VerdictBar() {
  const answer = evaluation.value?.answer ?? null;
  if (terrain.value === null) return null;
  const verdict = answer && answerVerdict(answer);
  return (
    <section
      class={`plan-verdict ${verdict ?? 'unknown'}`}
      aria-label="Verdict of the plan"
      data-verdict={verdict ?? ''}
      data-busy={groundBusy.value}
    >
      {verdict === null ? null : <VerdictMark verdict={verdict} words={false} />}
      <p>{answer === null ? 'Not yet reckoned.' : answerSentence(answer, plan.value)}</p>
    </section>
  );
}
