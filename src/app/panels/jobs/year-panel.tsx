import type { TankYear } from '../../../evaluation/result/evaluation.ts';
import { changeMonth, copyMonthDown, fillYear, halfYears, setYear } from '../../../plan/edits/edit-year.ts';
import type { MonthOfYear } from '../../../plan/model/plan.ts';
import { herdNotes } from '../../../report/tables/herd-notes.ts';
import { monthName, yearFigure } from '../../../report/tables/year-figure.ts';
import { yearSentence, yearTable } from '../../../report/tables/year-table.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import { edit, editOrSay } from '../../actions/edit-actions.ts';
import { years } from '../../state/jobs-store.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { Figure } from '../fields/estimate-figure.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';

/** How source and weather go through the year, and what that comes to at every tank. */
export function YearPanel() {
  const { year } = plan.value;
  if (year.length === 0) {
    return (
      <div class="job">
        <p>
          What arrives and what is wanted changes through the year. Say how source and weather go, month by month, and
          see on which days each tank runs short.
        </p>
        <p class="buttons">
          <button type="button" onClick={() => editOrSay((p) => setYear(p, halfYears(p)))}>
            Begin with summer and winter
          </button>
        </p>
      </div>
    );
  }
  return (
    <div class="job">
      <YearAnswer />
      <h2>Month by month</h2>
      <p class="note">
        The share is of what the source was read to give; empty is the dry season’s, or all of it where none is given.
        Air without a figure goes by the season.
      </p>
      <Months year={year} />
      {herdNotes(plan.value, plan.value.units).map((note) => (
        <p key={note} class="note">
          {note}
        </p>
      ))}
      <p class="buttons">
        <button type="button" class="quiet danger" onClick={() => editOrSay((p) => fillYear(p, null))}>
          Remove the year
        </button>
      </p>
    </div>
  );
}

function YearAnswer() {
  const known = years.value;
  if (known === null) {
    return <p>The year is worked out once there are animals, a bucket test of the source, and a delivery line.</p>;
  }
  return (
    <>
      {known.map((year) => (
        <TankYearBlock key={year.id} year={year} />
      ))}
    </>
  );
}

const SIZE = { width: 400, height: 150 } as const;

function TankYearBlock({ year }: { readonly year: TankYear }) {
  const { units } = plan.value;
  const name = nameOf(plan.value, year.id);
  const figure = yearFigure(year.months, { units, size: SIZE, title: `The year at ${name}` });
  const table = yearTable(year, name, units);
  return (
    <section class="block tank-year" aria-label={table.title} data-tank-year={year.id}>
      <h2>{name}</h2>
      <p>{yearSentence(year, units)}</p>
      {figure === null ? null : <Figure node={figure} />}
      <details>
        <summary>In numbers</summary>
        <ScrollTable label={table.title} kind="year">
          <thead>
            <tr>
              {table.columns.map((column) => (
                <th key={column.name} scope="col" class={column.numeric ? 'number' : ''}>
                  {column.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map(({ id, cells: [first, ...rest] }) => (
              <tr key={id}>
                <th scope="row">{first}</th>
                {rest.map((cell, index) => (
                  <td key={table.columns[index + 1]?.name} class="number">
                    {cell}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </ScrollTable>
      </details>
    </section>
  );
}

function Months({ year }: { readonly year: readonly MonthOfYear[] }) {
  const { units } = plan.value;
  return (
    <ScrollTable label="Source and weather by month" kind="months">
      <thead>
        <tr>
          <th scope="col">Month</th>
          <th scope="col">Season</th>
          <th scope="col">Air</th>
          <th scope="col">Source</th>
          <th scope="col">
            <span class="unseen">Copy</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {year.map((month, index) => (
          <tr key={monthName(index)} data-month={index + 1}>
            <th scope="row">{monthName(index)}</th>
            <td>
              <ChoiceField
                label={`Season in ${monthName(index)}`}
                bare
                value={month.season}
                choices={[
                  { value: 'summer', words: 'summer' },
                  { value: 'winter', words: 'winter' },
                ]}
                onValue={(season) => edit((p) => changeMonth(p, index, { season }))}
              />
            </td>
            <td>
              <QuantityField
                label={`Air in ${monthName(index)}`}
                bare
                kind="temperature"
                value={month.airTemperature}
                units={units}
                optional
                onValue={(airTemperature) => edit((p) => changeMonth(p, index, { airTemperature }))}
              />
            </td>
            <td>
              <QuantityField
                label={`Share of the source in ${monthName(index)}`}
                bare
                kind="share"
                value={month.sourceShare}
                units={units}
                optional
                onValue={(sourceShare) => edit((p) => changeMonth(p, index, { sourceShare }))}
              />
            </td>
            <td>
              <CopyDown index={index} last={year.length - 1} />
            </td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}

function CopyDown({ index, last }: { readonly index: number; readonly last: number }) {
  if (index === last) return null;
  return (
    <button
      type="button"
      class="quiet"
      title="Gives every month below the same"
      onClick={() => editOrSay((p) => copyMonthDown(p, index))}
    >
      copy down
      <span class="unseen"> {monthName(index)} to every month below</span>
    </button>
  );
}
