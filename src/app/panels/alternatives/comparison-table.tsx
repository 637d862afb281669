import { useMemo, useState } from 'preact/hooks';
import { type ComparedPart, comparePlans, countSame, differingParts } from '../../../report/compare/compare-plans.ts';
import { type ComparedRow, clearWords, STANDING_WORDS } from '../../../report/compare/compared-row.ts';
import { comparedPair, comparison, type ReckonedSheet } from '../../actions/comparison.ts';
import { followComparison, stopComparison } from '../../actions/comparison-actions.ts';
import type { Sheet } from '../../state/alternatives.ts';
import { plan } from '../../state/store.ts';
import { ScrollTable } from '../fields/scroll-table.tsx';
import { printSheet } from '../print/take-along-actions.ts';

/** The plan on the map and an alternative, row by row. */
export function ComparisonTable({ other }: { readonly other: Sheet }) {
  const state = comparison.value;
  switch (state.kind) {
    case 'none':
      return <p>Both are worked out once an elevation file is open.</p>;
    case 'reckoning':
      return <Reckoning name={other.history.present.name} step={state.step} />;
    case 'stopped':
      return (
        <p>
          {other.history.present.name} is not worked out yet. <Again words="Work it out" />
        </p>
      );
    case 'failed':
      return (
        <p class="problem" role="alert">
          The other plan could not be worked out: {state.reason}. <Again words="Try again" />
        </p>
      );
    case 'known':
      return <Compared other={state.other} />;
  }
}

const STEPS = { ground: 0, numbers: 1 } as const;

function Reckoning({ name, step }: { readonly name: string; readonly step: keyof typeof STEPS }) {
  return (
    <div class="buttons">
      <p role="status">
        {name}: {step === 'ground' ? 'the ground under it is being read' : 'its numbers are being drawn'}…
      </p>
      <progress aria-label={`Reckoning ${name}`} value={STEPS[step]} max={2} />
      <button type="button" onClick={stopComparison}>
        Stop
      </button>
    </div>
  );
}

function Again({ words }: { readonly words: string }) {
  return (
    <button type="button" onClick={followComparison}>
      {words}
    </button>
  );
}

function Compared({ other }: { readonly other: ReckonedSheet }) {
  const [all, setAll] = useState(false);
  const pair = comparedPair.value;
  const { units } = plan.value;
  const parts = useMemo(() => pair && comparePlans(pair, units), [pair, units]);
  if (pair === null || parts === null) return <p role="status">The plan on the map is being worked out…</p>;
  const seen = all ? parts : differingParts(parts);
  return (
    <>
      <p class="note">
        On the map and in the profile, {other.grounded.plan.name} is laid over with dots. {clearWords(pair.drawn)}
      </p>
      <label class="check">
        <input type="checkbox" checked={all} onChange={(event) => setAll(event.currentTarget.checked)} />
        Show what is the same as well ({countSame(parts)})
      </label>
      {seen.length === 0 ? (
        <p>The two plans do not differ yet.</p>
      ) : (
        <Table parts={seen} names={[pair.one.plan.name, pair.other.plan.name]} />
      )}
      <p class="buttons">
        <button type="button" onClick={() => void printSheet('comparison')}>
          Print the comparison
        </button>
      </p>
    </>
  );
}

interface TableProps {
  readonly parts: readonly ComparedPart[];
  readonly names: readonly [string, string];
}

function Table({ parts, names }: TableProps) {
  return (
    <ScrollTable label="Two plans side by side" kind="comparison">
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">What</span>
          </th>
          {names.map((name, at) => (
            <th key={at === 0 ? 'one' : 'other'} scope="col" title={name}>
              <span class="column-name">{name}</span>
            </th>
          ))}
          <th scope="col">
            Difference <small>second less first</small>
          </th>
        </tr>
      </thead>
      {parts.map(({ title, rows }) => (
        <tbody key={title}>
          <tr class="part">
            <th scope="rowgroup" colSpan={4}>
              {title}
            </th>
          </tr>
          {rows.map((row, at) => (
            <ComparedCells key={`${row.about} ${at}`} row={row} />
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
        {row.differenceRange === null ? null : <small>{row.differenceRange}</small>}
        {STANDING_WORDS[row.standing] === '' ? null : <small>{STANDING_WORDS[row.standing]}</small>}
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
