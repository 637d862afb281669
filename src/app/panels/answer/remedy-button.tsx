import type { Finding } from '../../../evaluation/result/evaluation.ts';
import { answerSentence } from '../../../report/findings/answer-words.ts';
import { changeWords } from '../../../report/findings/change-words.ts';
import { pointAtRemedy, takeRemedy } from '../../actions/remedy-actions.ts';
import { remedies, remedyKey } from '../../state/remedy-store.ts';
import { evaluation, plan } from '../../state/store.ts';

/**
 * What mends a finding on the whole plan, as a button that does it, with the answer that comes of it; the words of the finding's own
 * remedy where no change of the plan does.
 */
export function RemedyButton({ finding, otherwise }: { readonly finding: Finding; readonly otherwise: string }) {
  const known = remedies.value;
  const remedy = known?.of === evaluation.value ? known.found.get(remedyKey(finding)) : undefined;
  if (remedy == null) return otherwise === '' ? null : <p class="remedy">{otherwise}</p>;
  const { units } = plan.value;
  const words = remedy.changes.map((each) => changeWords(each, remedy.after.plan, units));
  return (
    <div class="remedy-offer" data-kind={remedy.changes.map(({ kind }) => kind).join(' ')}>
      <button
        type="button"
        class="do-it"
        onClick={() => takeRemedy(remedy)}
        onPointerEnter={() => pointAtRemedy(remedy)}
        onPointerLeave={() => pointAtRemedy(null)}
        onFocus={() => pointAtRemedy(remedy)}
        onBlur={() => pointAtRemedy(null)}
      >
        {words.join(' and ')}
      </button>
      <p class="then">Then: {answerSentence(remedy.after.evaluation.answer, remedy.after.plan)}</p>
    </div>
  );
}
