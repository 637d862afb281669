import type { TankResult } from '../../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../../evaluation/statistics/estimate.ts';
import { estimateWords, governedWords } from '../../../report/words/measure-words.ts';
import { barName, tankSentence } from '../../../report/words/spoken-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { showDetails } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { RangeBar } from '../fields/estimate-figure.tsx';
import { VerdictMark } from '../fields/role-icon.tsx';
import { TermWord } from '../fields/term-word.tsx';

/** What the bracket on a bar means: candidates are each planned for the whole herd, kept ones for those that drink there. */
function needNote(needs: readonly (number | null)[]): string {
  const [first = null] = needs;
  if (first === null) return 'No animals are entered, so there is no need to compare with.';
  if (needs.some((need) => need !== first))
    return 'The bracket on each bar marks what the animals that drink there need.';
  return `The animals need ${writeQuantity(first, 'daily-volume', plan.value.units)}; the bracket on each bar marks it.`;
}

/** Each tank the pump could lift to, side by side. */
export function TankTable() {
  const tanks = evaluation.value?.tanks ?? [];
  if (tanks.length === 0) return null;
  const top = Math.max(...tanks.flatMap((tank) => [tank.line?.deliveryPerDay?.high ?? 0, tank.demandPerDay ?? 0]));
  return (
    <div class="block">
      <h2 id="tanks-title">Tanks</h2>
      <p class="note">{needNote(tanks.map((tank) => tank.demandPerDay))}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls sideways must scroll from the keyboard */}
      <section class="table-scroll" tabIndex={0} aria-labelledby="tanks-title">
        <table class="tanks">
          <thead>
            <tr>
              <th scope="col">Tank</th>
              <th scope="col" class="number">
                <TermWord of={TERMS.lift} />
              </th>
              <th scope="col" class="number">
                <TermWord of={TERMS.governingLift} />
              </th>
              <th scope="col">
                <TermWord of={TERMS.arrives} />
              </th>
            </tr>
          </thead>
          <tbody>
            {tanks.map((tank) => (
              <TankRow key={tank.id} tank={tank} top={top} />
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

function TankRow({ tank, top }: { readonly tank: TankResult; readonly top: number }) {
  const { units, points } = plan.value;
  const name = points.find(({ id }) => id === tank.id)?.name ?? tank.id;
  const governing = tank.line === null ? null : governedWords(tank.line.governedBy, units);
  return (
    <tr data-tank={tank.id} data-verdict={tank.verdict ?? ''}>
      <th scope="row">
        <button type="button" class="link" onClick={() => showDetails({ kind: 'point', id: tank.id })}>
          {name}
        </button>
        {tank.verdict === null ? <small>no delivery line yet</small> : <VerdictMark verdict={tank.verdict} />}
      </th>
      <LiftCell estimate={tank.lift} field="lift" note={null} />
      <LiftCell estimate={tank.line?.governingLift ?? null} field="governing-lift" note={governing} />
      <DayCell tank={tank} name={name} top={top} />
    </tr>
  );
}

interface DayProps {
  readonly tank: TankResult;
  readonly name: string;
  readonly top: number;
}

/** What arrives a day: for the ear one sentence, for the eye figures and a bar. */
function DayCell({ tank, name, top }: DayProps) {
  const { units } = plan.value;
  const day = tank.line?.deliveryPerDay ?? null;
  const words = day === null ? null : estimateWords(day, 'daily-volume', units);
  return (
    <td data-field="delivery-per-day" data-value={day?.likely ?? ''}>
      <span class="unseen">{tankSentence(name, tank, units)}</span>
      <span class="likely" aria-hidden="true">
        {words?.likely ?? '–'}
      </span>
      {day === null ? null : (
        <RangeBar estimate={day} top={top} need={tank.demandPerDay} name={barName(day, tank.demandPerDay, units)} />
      )}
      {words === null || words.range === null ? null : <small aria-hidden="true">{words.range}</small>}
    </td>
  );
}

interface LiftCellProps {
  readonly estimate: Estimate | null;
  readonly field: string;
  readonly note: string | null;
}

function LiftCell({ estimate, field, note }: LiftCellProps) {
  const words = estimate === null ? null : estimateWords(estimate, 'height', plan.value.units);
  return (
    <td class="number" data-field={field} data-value={estimate?.likely ?? ''}>
      <span class="likely">{words?.likely ?? '–'}</span>
      {words === null || words.range === null ? null : <small>{words.range}</small>}
      {note === null ? null : <small>{note}</small>}
    </td>
  );
}
