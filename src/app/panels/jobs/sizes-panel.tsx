import type { PumpSizeRow } from '../../../evaluation/evaluate/pump-catalogue.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import { MODEL_SENTENCE, pumpSizeAnswer, pumpSizeWords } from '../../../report/words/pump-size-words.ts';
import { takeSize } from '../../actions/jobs-actions.ts';
import { sizeTable } from '../../state/jobs-store.ts';
import { plan } from '../../state/store.ts';
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
  return (
    <div class="job">
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
            <PumpSize key={row.size.inches} row={row} />
          ))}
        </ScrollTable>
      )}
      <MeasuredRunFields />
    </div>
  );
}

function PumpSize({ row }: { readonly row: PumpSizeRow }) {
  const words = pumpSizeWords(row, plan.value.units);
  const pump = plan.value.pump;
  const taken = pump?.kind === 'sheet' && pump.driveBore === row.size.bore;
  return (
    <tbody data-size={row.size.nominal} data-verdict={words.verdict} data-taken={taken}>
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
            <VerdictMark verdict={words.verdict} words={false} />
            <span>
              {taken ? <strong>In the plan now. </strong> : null}
              {words.sentence}; drive pipe {words.length}, {words.lengthRule}
              {words.two === null ? null : `; two side by side deliver ${words.two}`}
            </span>
            {row.intake === null ? null : (
              <button type="button" onClick={() => takeSize(row)}>
                Take<span class="unseen"> the {words.name} size into the pump sheet</span>
              </button>
            )}
            {words.two === null ? null : (
              <button type="button" onClick={() => takeSize(row, 2)}>
                Take two<span class="unseen"> of the {words.name} size into the pump sheet</span>
              </button>
            )}
          </div>
        </td>
      </tr>
    </tbody>
  );
}
