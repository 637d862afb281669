import { useRef, useState } from 'preact/hooks';
import type { Estimate } from '../../../evaluation/statistics/estimate.ts';
import { changePoint, setStanding } from '../../../plan/edits/edit-points.ts';
import { findingTitle, wrongWords } from '../../../report/findings/finding-words.ts';
import {
  type Candidate,
  type CandidateOrder,
  candidates,
  greatestDay,
  storedWords,
} from '../../../report/tables/candidates.ts';
import { proposableLines } from '../../../report/tables/proposable-lines.ts';
import { estimateWords, governedWords } from '../../../report/words/measure-words.ts';
import { barName } from '../../../report/words/spoken-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { edit, editOrSay, select } from '../../actions/edit-actions.ts';
import { orderCandidates, overlayProfiles } from '../../actions/jobs-actions.ts';
import { proposeToAll } from '../../actions/propose-actions.ts';
import { pickTool } from '../../actions/view-actions.ts';
import { candidateOrder, overlaid } from '../../state/jobs-store.ts';
import { evaluation, history, plan, selection } from '../../state/store.ts';
import { RangeBar } from '../fields/estimate-figure.tsx';
import { VerdictMark } from '../fields/role-icon.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';
import { TextField } from '../fields/text-field.tsx';
import { ProposalCard, ProposeButton } from './proposal-card.tsx';

const COLUMNS: readonly { readonly order: CandidateOrder; readonly words: string; readonly numeric: boolean }[] = [
  { order: 'name', words: 'Tank', numeric: false },
  { order: 'verdict', words: TERMS.verdict.plain, numeric: false },
  { order: 'delivery', words: TERMS.arrives.plain, numeric: false },
  { order: 'lift', words: TERMS.lift.plain, numeric: true },
  { order: 'governing-lift', words: TERMS.governingLift.plain, numeric: true },
  { order: 'length', words: 'Line', numeric: true },
  { order: 'storage', words: TERMS.stored.plain, numeric: true },
];

/** What decides stands in the first row of a candidate, the figures behind it in the second, so that all fit the panel. */
const ACROSS = 4;
const ROWS = [COLUMNS.slice(0, 3), COLUMNS.slice(3)] as const;

/** Every place that is thought of for a tank, side by side, in the order of what matters. */
export function CandidateTable() {
  const [all, sortAgain] = useKeptOrder(candidates(plan.value, evaluation.value, candidateOrder.value));
  const top = greatestDay(all);
  const missing = proposableLines(history.value.present).filter(({ role }) => role === 'delivery');
  return (
    <div class="job">
      <p class="note">
        Place as many tanks as you are thinking of. Choose one and rule the others out: they stay in the plan and can
        come back.
      </p>
      <p class="buttons">
        <button type="button" class="tool" onClick={() => pickTool({ place: 'tank' })}>
          Another possible place
        </button>
        <label class="check">
          <input
            type="checkbox"
            checked={overlaid.value}
            onChange={(event) => overlayProfiles(event.currentTarget.checked)}
          />
          Show their profiles over each other
        </label>
      </p>
      {missing.length > 1 ? (
        <p class="buttons">
          <button type="button" onClick={() => void proposeToAll()}>
            Propose lines to all {missing.length} tanks without one
          </button>
        </p>
      ) : null}
      <ProposalCard />
      {all.length === 0 ? <p>No tank is placed yet.</p> : <Table all={all} top={top} onOrder={sortAgain} />}
    </div>
  );
}

interface KeptOrder {
  readonly by: CandidateOrder | null;
  readonly ids: readonly string[];
}

/**
 * The rows in the order in which they stand: made anew when an order is asked for or a tank comes or goes, and kept while one works
 * in them.
 */
function useKeptOrder(all: readonly Candidate[]): readonly [rows: readonly Candidate[], sortAgain: () => void] {
  const kept = useRef<KeptOrder>({ by: null, ids: [] });
  const [, sorted] = useState(0);
  const { by, ids } = kept.current;
  const isKnown = all.some(({ result }) => result !== null);
  const isSame =
    by === candidateOrder.value && ids.length === all.length && all.every(({ tank }) => ids.includes(tank.id));
  if (!isSame || !isKnown) {
    kept.current = { by: isKnown ? candidateOrder.value : null, ids: all.map(({ tank }) => tank.id) };
  }
  const rows = kept.current.ids.flatMap((id) => all.filter(({ tank }) => tank.id === id));
  const sortAgain = () => {
    kept.current = { by: null, ids: [] };
    sorted((times) => times + 1);
  };
  return [rows, sortAgain];
}

function Table({
  all,
  top,
  onOrder,
}: {
  readonly all: readonly Candidate[];
  readonly top: number;
  readonly onOrder: () => void;
}) {
  return (
    <ScrollTable label="Possible places for the tank" kind="candidates">
      <thead>
        {ROWS.map((columns) => (
          <tr key={columns[0]?.order}>
            {columns.map(({ order, words, numeric }) => (
              <th
                key={order}
                scope="col"
                colSpan={order === 'delivery' ? 2 : 1}
                class={numeric ? 'number' : ''}
                aria-sort={candidateOrder.value === order ? 'ascending' : undefined}
              >
                <button
                  type="button"
                  class="link"
                  title={`Sort by: ${words}`}
                  onClick={() => {
                    orderCandidates(order);
                    onOrder();
                  }}
                >
                  {words}
                  <span aria-hidden="true">{candidateOrder.value === order ? ' ↓' : ''}</span>
                </button>
              </th>
            ))}
          </tr>
        ))}
      </thead>
      {all.map((one) => (
        <tbody key={one.tank.id} class={one.tank.standing} data-candidate={one.tank.id}>
          <CandidateCells one={one} top={top} />
          <tr class="about">
            <td colSpan={ACROSS}>
              <Standing one={one} />
            </td>
          </tr>
        </tbody>
      ))}
    </ScrollTable>
  );
}

const STANDINGS = [
  { standing: 'kept', words: 'Chosen' },
  { standing: 'candidate', words: 'Maybe' },
  { standing: 'set-aside', words: 'Ruled out' },
] as const;

/** Whether the tank is kept, why, and a line to it where there is none. */
function Standing({ one }: { readonly one: Candidate }) {
  const { id, name, note, standing } = one.tank;
  const line = proposableLines(history.value.present).find(({ role, to }) => role === 'delivery' && to.id === id);
  return (
    <div class="standing">
      <fieldset class="group" aria-label={`Choice of ${name}`}>
        {STANDINGS.map((each) => (
          <button
            key={each.standing}
            type="button"
            aria-pressed={standing === each.standing}
            onClick={() => editOrSay((p) => setStanding(p, id, each.standing))}
          >
            {each.words}
          </button>
        ))}
      </fieldset>
      <TextField
        label={`Why, for ${name}`}
        value={note}
        onValue={(typed) => edit((p) => changePoint(p, id, 'tank', { note: typed }))}
      />
      {line === undefined ? null : <ProposeButton line={line} words="Propose a delivery line" />}
    </div>
  );
}

/** The numbers of one candidate; its name selects it on the map and in the profile. */
function CandidateCells({ one, top }: { readonly one: Candidate; readonly top: number }) {
  const { tank, result, length, pipe, pressure } = one;
  const { units } = plan.value;
  const line = result?.line ?? null;
  return (
    <>
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
        <td>
          {result?.verdict == null ? '–' : <VerdictMark verdict={result.verdict} />}
          <Reason one={one} />
        </td>
        <td colSpan={2} data-field="delivery-per-day" data-value={line?.deliveryPerDay?.likely ?? ''}>
          <Spread estimate={line?.deliveryPerDay ?? null} kind="daily-volume" />
          {line?.deliveryPerDay == null ? null : (
            <RangeBar
              estimate={line.deliveryPerDay}
              top={top}
              need={result?.demandPerDay ?? null}
              name={barName(line.deliveryPerDay, result?.demandPerDay ?? null, plan.value.units)}
            />
          )}
        </td>
      </tr>
      <tr class="behind">
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
    </>
  );
}

/** Why a tank is not simply OK: the first finding against it or its line. */
function Reason({ one }: { readonly one: Candidate }) {
  const { tank, result } = one;
  if (result?.verdict == null || result.verdict === 'holds') return null;
  const about = [tank.id, result.line?.route];
  const open = (evaluation.value?.findings ?? []).filter((finding) => finding.verdict !== 'holds');
  const worst = open.filter(({ verdict }) => verdict === result.verdict);
  const finding =
    worst.find((each) => about.includes(each.about)) ?? worst[0] ?? open.find((each) => about.includes(each.about));
  if (finding === undefined) return null;
  return <small>{finding.verdict === 'fails' ? wrongWords(finding) : findingTitle(finding)}</small>;
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
