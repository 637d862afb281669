import { planSentence } from '../../../report/words/verdict-words.ts';
import { evaluation, groundBusy, terrain } from '../../state/store.ts';
import { VerdictMark } from '../fields/role-icon.tsx';

/** The verdict of the whole plan; it stays in view whichever panel is open. */
export function VerdictBar() {
  const verdict = evaluation.value?.verdict ?? null;
  if (terrain.value === null) return null;
  return (
    <section
      class={`plan-verdict ${verdict ?? 'unknown'}`}
      aria-label="Verdict of the plan"
      data-verdict={verdict ?? ''}
      data-busy={groundBusy.value}
    >
      {verdict === null ? null : <VerdictMark verdict={verdict} words={false} />}
      <p>{planSentence(verdict)}</p>
    </section>
  );
}
