import { measureReason } from '../../../report/findings/measure-reason.ts';
import { measureWords } from '../../../report/words/measure-words.ts';
import { showById } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';

/** What to measure on site, in order of worth. */
export function MeasureFirst() {
  const result = evaluation.value;
  if (result === null || result.measureFirst.length === 0) return null;
  return (
    <section aria-labelledby="measure-title">
      <h2 id="measure-title">Measure on site, in this order</h2>
      <ol class="measure-first">
        {result.measureFirst.map((item) => {
          const words = measureWords(item, plan.value, plan.value.units);
          const reason = measureReason(item, result, plan.value, plan.value.units);
          return (
            <li key={`${item.quantity} ${item.about}`} data-quantity={item.quantity}>
              <button type="button" class="link" onClick={() => showById(item.about)}>
                {words.title}
              </button>{' '}
              {words.aim === null ? null : <strong>{words.aim}</strong>}
              {words.expected === null ? null : <small>now thought to be {words.expected}</small>}
              {reason === '' ? null : <small>{reason}</small>}
            </li>
          );
        })}
      </ol>
    </section>
  );
}
