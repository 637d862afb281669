import { lineTable, pointTable } from '../../../report/tables/plan-tables.ts';
import type { ReportTable } from '../../../report/tables/report-table.ts';
import { showById } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';

/** Every point and line of the plan in two tables: the map in words. */
export function PlanTables() {
  if (plan.value.points.length === 0) return null;
  const reported = { plan: plan.value, evaluation: evaluation.value, units: plan.value.units };
  return (
    <details class="block">
      <summary>
        <h2>All points and lines</h2>
      </summary>
      <Table table={pointTable(reported)} />
      <Table table={lineTable(reported)} />
    </details>
  );
}

function Table({ table }: { readonly table: ReportTable }) {
  if (table.rows.length === 0) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls sideways must scroll from the keyboard
    <section class="table-scroll" tabIndex={0} aria-label={table.title}>
      <table class="plan-table">
        <caption class="unseen">{table.title}</caption>
        <thead>
          <tr>
            {table.columns.map(({ name, numeric }) => (
              <th key={name} scope="col" class={numeric ? 'number' : ''}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map(({ id, cells }) => (
            <tr key={id}>
              {cells.map((cell, index) =>
                index === 0 ? (
                  <th key={table.columns[index]?.name} scope="row">
                    <button type="button" class="link" onClick={() => showById(id)}>
                      {cell}
                    </button>
                  </th>
                ) : (
                  <td key={table.columns[index]?.name} class={table.columns[index]?.numeric ? 'number' : ''}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
