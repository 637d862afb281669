import type { Estimate } from '../../../evaluation/statistics/estimate.ts';
import type { Candidate } from '../../../report/tables/candidates.ts';
import { storedWords } from '../../../report/tables/candidates.ts';
import { estimateWords, governedWords } from '../../../report/words/measure-words.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { select } from '../../actions/edit-actions.ts';
import { plan, selection } from '../../state/store.ts';
import { RangeBar } from '../fields/estimate-figure.tsx';
import { VerdictMark } from '../fields/verdict-mark.tsx';

/** The numbers of one candidate; its name selects it on the map and in the profile. */
export function CandidateCells({ one, top }: { readonly one: Candidate; readonly top: number }) {
  const { tank, result, length, pipe, pressure } = one;
  const { units } = plan.value;
  const line = result?.line ?? null;
  return (
    <tr data-verdict={result?.verdict ?? ''}>
      <th scope="row">
        <button
          type="button"
          class="link"
          aria-current={selection.value?.id === tank.id}
          onClick={() => select({ kind: 'point', id: tank.id })}
        >
          {tank.name}
        </button>
      </th>
      <td>{result?.verdict == null ? '–' : <VerdictMark verdict={result.verdict} />}</td>
      <td data-field="delivery-per-day" data-value={line?.deliveryPerDay?.likely ?? ''}>
        <Spread estimate={line?.deliveryPerDay ?? null} kind="daily-volume" />
        {line?.deliveryPerDay == null ? null : (
          <RangeBar estimate={line.deliveryPerDay} top={top} need={result?.demandPerDay ?? null} />
        )}
      </td>
      <td class="number" data-field="lift" data-value={result?.lift.likely ?? ''}>
        <Spread estimate={result?.lift ?? null} kind="height" />
      </td>
      <td class="number" data-field="governing-lift" data-value={line?.governingLift.likely ?? ''}>
        <Spread estimate={line?.governingLift ?? null} kind="height" />
        {line === null ? null : <small>{governedWords(line.governedBy, units)}</small>}
      </td>
      <td class="number" data-field="length" data-value={length ?? ''}>
        {length === null ? 'no line yet' : writeQuantity(length, 'length', units)}
        {pipe === null ? null : <small class="pipe">{pipe}</small>}
        {pressure === null ? null : (
          <small class="pressure">
            pressure: <VerdictMark verdict={pressure} />
          </small>
        )}
      </td>
      <td class="number" data-field="storage-days" data-value={result?.storageDays ?? ''}>
        {storedWords(result)}
      </td>
    </tr>
  );
}

function Spread({ estimate, kind }: { readonly estimate: Estimate | null; readonly kind: QuantityKind }) {
  const words = estimate === null ? null : estimateWords(estimate, kind, plan.value.units);
  return (
    <>
      <span class="likely">{words?.likely ?? '–'}</span>
      {words === null || words.range === null ? null : <small>{words.range}</small>}
    </>
  );
}
