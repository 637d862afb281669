import { type PumpSizeRow, sizeOfPump } from '../../../evaluation/evaluate/pump-catalogue.ts';
import { sizeInPlan, sizesCaveat } from '../../../report/tables/size-in-plan.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import { MODEL_SENTENCE, pumpSizeAnswer, pumpSizeWords } from '../../../report/words/pump-size-words.ts';
import { takeSize } from '../../actions/jobs-actions.ts';
import { sizeTable } from '../../state/jobs-store.ts';
import { evaluation, plan } from '../../state/store.ts';
import { VerdictMark } from '../fields/role-icon.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';
import { MeasuredRunFields } from '../inputs/measured-run-fields.tsx';

/** Which of the usual sizes of ram suits this source and lift. */
export function SizesPanel() {
  const table = sizeTable.value;
  if (table === null) {
    return (
      <p class="job">
        The sizes are compared once source and pump are placed with a fall between them, a delivery line is drawn and
        the source is read under Inputs.
      </p>
    );
  }
  const caveat = evaluation.value === null ? '' : sizesCaveat(evaluation.value);
  return (
    <div class="job">
      {caveat === '' ? null : (
        <p class="problem" role="note">
          {caveat}
        </p>
      )}
      <p class="answer-sentence" data-answer={table.answer.kind}>
        {pumpSizeAnswer(table.answer, plan.value.units, table.about === null ? '' : nameOf(plan.value, table.about))}
      </p>
      <p class="note">{MODEL_SENTENCE}</p>
      {table.rows.length === 0 ? null : (
        <ScrollTable label="Sizes of ram" kind="pump-sizes">
          <thead>
            <tr>
              <th scope="col">Drive size</th>
              <th scope="col" class="number">
                Takes
              </th>
              <th scope="col" class="number">
                Delivers a day
              </th>
              <th scope="col" class="number">
                Beats
              </th>
            </tr>
          </thead>
          {table.rows.map((row) => (
            <PumpSize key={row.size.inches} row={row} chosen={row === sizeOfPump(plan.value, table.rows)} />
          ))}
        </ScrollTable>
      )}
      <MeasuredRunFields />
    </div>
  );
}

function PumpSize({ row, chosen }: { readonly row: PumpSizeRow; readonly chosen: boolean }) {
  const words = pumpSizeWords(row, plan.value.units);
  const own = chosen && evaluation.value !== null ? sizeInPlan(plan.value, evaluation.value) : null;
  return (
    <tbody data-size={row.size.nominal} data-verdict={own?.verdict ?? words.verdict} data-taken={own !== null}>
      <tr>
        <th scope="row">{words.name}</th>
        <td class="number">{words.intake ?? '–'}</td>
        <td class="number" data-field="delivery" data-value={row.run?.delivery ?? ''}>
          {words.delivery ?? '–'}
        </td>
        <td class="number">{words.beat ?? '–'}</td>
      </tr>
      <tr class="about">
        <td colSpan={4}>
          <div class="size-about">
            <VerdictMark verdict={own?.verdict ?? words.verdict} words={false} />
            <span>
              {own === null ? `${words.sentence}; ` : <strong>{capital(own.sentence)} </strong>}
              {own === null ? 'drive' : 'Drive'} pipe {words.length}, {words.lengthRule}
              {words.two === null ? null : `; two side by side deliver ${words.two}`}
            </span>
            {row.intake === null ? null : (
              <button type="button" onClick={() => takeSize(row)}>
                Use this pump<span class="unseen">: {words.name}</span>
              </button>
            )}
            {words.two === null ? null : (
              <button type="button" onClick={() => takeSize(row, 2)}>
                Use two<span class="unseen"> of {words.name}</span>
              </button>
            )}
          </div>
        </td>
      </tr>
    </tbody>
  );
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
