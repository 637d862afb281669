import { useState } from 'preact/hooks';
import { type ComparedPart, comparePlans } from '../../../report/compare-plans.ts';
import type { ComparedRow } from '../../../report/compared-row.ts';
import { comparison, type ReckonedSheet } from '../../alternatives/comparison.ts';
import type { Sheet } from '../../alternatives/desk.ts';
import { evaluation, grounded, plan } from '../../state/store.ts';
import { ScrollTable } from '../jobs/scroll-table.tsx';

/** The plan on the map and an alternative, row by row. */
export function ComparisonTable({ other }: { readonly other: Sheet }) {
  const state = comparison.value;
  switch (state.kind) {
    case 'none':
      return <p>Both are reckoned once an elevation file is open.</p>;
    case 'reckoning':
      return <p role="status">{other.history.present.name} is being reckoned…</p>;
    case 'failed':
      return (
        <p class="problem" role="alert">
          The other plan could not be reckoned: {state.reason}.
        </p>
      );
    case 'known':
      return <Compared other={state.other} />;
  }
}

const STANDINGS: Readonly<Record<ComparedRow['standing'], string>> = {
  apart: 'beyond the spread',
  within: 'within the spread',
  same: 'the same',
  other: '',
};

function Compared({ other }: { readonly other: ReckonedSheet }) {
  const [all, setAll] = useState(false);
  const here = evaluation.value;
  const known = grounded.value;
  if (here === null || known === null) return <p role="status">The plan on the map is being reckoned…</p>;
  const { plan: otherPlan } = other.grounded;
  const names = [known.plan.name, otherPlan.name] as const;
  const parts = comparePlans(
    { plan: known.plan, evaluation: here },
    { plan: otherPlan, evaluation: other.evaluation },
    plan.value.units,
  );
  const same = parts.reduce((sum, { rows }) => sum + rows.filter(({ standing }) => standing === 'same').length, 0);
  const seen = parts.flatMap(({ title, rows }) => {
    const shown = all ? rows : rows.filter(({ standing }) => standing !== 'same');
    return shown.length === 0 ? [] : [{ title, rows: shown }];
  });
  return (
    <>
      <label class="check">
        <input type="checkbox" checked={all} onChange={(event) => setAll(event.currentTarget.checked)} />
        Show what is the same as well ({same})
      </label>
      {seen.length === 0 ? <p>The two plans do not differ yet.</p> : <Table parts={seen} names={names} />}
    </>
  );
}

interface TableProps {
  readonly parts: readonly ComparedPart[];
  readonly names: readonly [string, string];
}

function Table({ parts, names: [one, other] }: TableProps) {
  return (
    <ScrollTable label="Two plans side by side" kind="comparison">
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">What</span>
          </th>
          <th scope="col">{one}</th>
          <th scope="col">{other}</th>
          <th scope="col">Difference</th>
        </tr>
      </thead>
      {parts.map(({ title, rows }) => (
        <tbody key={title}>
          <tr class="part">
            <th scope="rowgroup" colSpan={4}>
              {title}
            </th>
          </tr>
          {rows.map((row) => (
            <ComparedCells key={row.about} row={row} />
          ))}
        </tbody>
      ))}
    </ScrollTable>
  );
}

function ComparedCells({ row }: { readonly row: ComparedRow }) {
  return (
    <tr data-standing={row.standing}>
      <th scope="row">{row.about}</th>
      <td>
        <Value value={row.one} />
      </td>
      <td>
        <Value value={row.other} />
      </td>
      <td>
        {row.difference}
        {STANDINGS[row.standing] === '' ? null : <small>{STANDINGS[row.standing]}</small>}
      </td>
    </tr>
  );
}

function Value({ value }: { readonly value: ComparedRow['one'] }) {
  if (value === null) return <>–</>;
  return (
    <>
      {value.words}
      {value.range === null ? null : <small>{value.range}</small>}
    </>
  );
}
