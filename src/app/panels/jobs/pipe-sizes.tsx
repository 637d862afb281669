import type { PipeChoice } from '../../../evaluation/evaluate/pipe-choices.ts';
import { lineRemarks } from '../../../report/tables/line-facts.ts';
import { classStretchWords, suggestionSentence } from '../../../report/words/pipe-words.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { layIn, lookThroughSizes } from '../../actions/jobs-actions.ts';
import { onGround, pipeOfRoute } from '../../state/jobs-store.ts';
import { evaluation, plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { VerdictMark } from '../fields/role-icon.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';

/** What one line comes to in every size of its series, and the class that each stretch of it needs. */
export function PipeSizes() {
  const looked = pipeOfRoute.value;
  if (looked === null) return null;
  const { route, choices } = looked;
  const routes = onGround.value?.plan.routes ?? [];
  return (
    <div class="block">
      <h2>Which size</h2>
      <ChoiceField
        label="Line"
        value={route.id}
        choices={routes.map(({ id, name }) => ({ value: id, words: name }))}
        onValue={(id) => {
          lookThroughSizes(id);
          return [];
        }}
      />
      <p class="note">{suggestionSentence(choices, route.role)}</p>
      <ScrollTable label={`Sizes for ${route.name}`} kind="sizes">
        <thead>
          <tr>
            <th scope="col">Size</th>
            <th scope="col" class="number">
              Flow
            </th>
            <th scope="col" class="number">
              Friction
            </th>
            <th scope="col">Pressure</th>
            <th scope="col">
              <span class="unseen">Choose</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {choices.choices.map((choice) => (
            <SizeRow
              key={choice.row.id}
              choice={choice}
              route={route.id}
              suggested={choices.suggested === choice.row}
            />
          ))}
        </tbody>
      </ScrollTable>
      <Remarks route={route.id} />
      <Stretches />
    </div>
  );
}

function SizeRow({
  choice,
  route,
  suggested,
}: {
  readonly choice: PipeChoice;
  readonly route: string;
  readonly suggested: boolean;
}) {
  const { row, flow, friction, frictionShare, pressure } = choice;
  const { units, routes, pipes } = plan.value;
  const laid = pipes.find(({ id }) => id === routes.find((each) => each.id === route)?.pipe);
  const lies = laid?.kind === 'row' && laid.row === row.id;
  const written = (value: number | null, kind: QuantityKind) =>
    value === null ? '–' : writeQuantity(value, kind, units);
  return (
    <tr data-row={row.id} aria-current={lies}>
      <th scope="row">
        {row.label}
        {suggested ? <small>suggested</small> : null}
      </th>
      <td class="number" data-field="flow" data-value={flow ?? ''}>
        {written(flow, 'flow')}
      </td>
      <td class="number" data-field="friction" data-value={friction ?? ''}>
        {written(friction, 'height')}
        {frictionShare === null ? null : <small>{written(frictionShare, 'share')} of the lift</small>}
      </td>
      <td>{pressure === null ? '–' : <VerdictMark verdict={pressure} />}</td>
      <td class="row-end">
        {lies ? (
          'in use'
        ) : (
          <button type="button" onClick={() => layIn(route, row.id)}>
            Use<span class="unseen"> {row.label}</span>
          </button>
        )}
      </td>
    </tr>
  );
}

/** What stands against the line as it lies now. */
function Remarks({ route }: { readonly route: string }) {
  const known = onGround.value;
  const result = evaluation.value;
  if (known === null || result === null) return null;
  return (
    <>
      {lineRemarks(known.plan, result, { route, units: known.plan.units }).map(
        ({ code, verdict, sentence, remedy }) => (
          <p key={code} class="remark">
            <VerdictMark verdict={verdict} /> {sentence} {remedy}
          </p>
        ),
      )}
    </>
  );
}

/** Where along the line the light class is enough. */
function Stretches() {
  const looked = pipeOfRoute.value;
  const stretches = looked?.stretches ?? null;
  if (looked === null || stretches === null) return null;
  return (
    <>
      <h3>Lightest pipe rating that is safe</h3>
      <dl class="facts">
        {stretches.map((stretch) => {
          const words = classStretchWords(stretch, plan.value.units);
          return (
            <div key={stretch.from}>
              <dt>{words.where}</dt>
              <dd>
                {words.pipe} <small>{words.pressure}</small>
              </dd>
            </div>
          );
        })}
      </dl>
    </>
  );
}
