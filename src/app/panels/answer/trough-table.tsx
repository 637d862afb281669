import type { Estimate } from '../../../evaluation/statistics/estimate.ts';
import { estimateWords } from '../../../report/words/measure-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { showDetails } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { TermWord } from '../fields/term-word.tsx';

/** Each trough with the flow of its gravity line and the pressure at its closed valve. */
export function TroughTable() {
  const troughs = evaluation.value?.troughs ?? [];
  if (troughs.length === 0) return null;
  return (
    <div class="block">
      <h2 id="troughs-title">Troughs</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls sideways must scroll from the keyboard */}
      <section class="table-scroll" tabIndex={0} aria-labelledby="troughs-title">
        <table class="troughs">
          <thead>
            <tr>
              <th scope="col">Trough</th>
              <th scope="col" class="number">
                {TERMS.needed.plain}
              </th>
              <th scope="col" class="number">
                {TERMS.troughFlow.plain}
              </th>
              <th scope="col" class="number">
                <TermWord of={TERMS.stillHead} />
              </th>
              <th scope="col" class="number">
                {TERMS.belowSource.plain}
              </th>
            </tr>
          </thead>
          <tbody>
            {troughs.map((trough) => (
              <tr key={trough.id} data-trough={trough.id}>
                <th scope="row">
                  <button type="button" class="link" onClick={() => showDetails({ kind: 'point', id: trough.id })}>
                    {plan.value.points.find(({ id }) => id === trough.id)?.name ?? trough.id}
                  </button>
                </th>
                <Cell estimate={sure(trough.needPerDay)} kind="daily-volume" field="need" />
                <Cell estimate={trough.flow} kind="flow" field="flow" />
                <Cell estimate={trough.stillHead} kind="height" field="still-head" />
                <Cell estimate={trough.belowSource} kind="height" field="below-source" />
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

const sure = (value: number | null): Estimate | null =>
  value === null ? null : { low: value, likely: value, high: value };

function Cell({
  estimate,
  kind,
  field,
}: {
  readonly estimate: Estimate | null;
  readonly kind: QuantityKind;
  readonly field: string;
}) {
  const words = estimate === null ? null : estimateWords(estimate, kind, plan.value.units);
  return (
    <td class="number" data-field={field} data-value={estimate?.likely ?? ''}>
      <span class="likely">{words?.likely ?? '–'}</span>
      {words === null || words.range === null ? null : <small>{words.range}</small>}
    </td>
  );
}
