import { changeRoute } from '../../../plan/edits/edit-routes.ts';
import type { PlanRoute } from '../../../plan/model/plan.ts';
import { lineFacts } from '../../../report/tables/line-facts.ts';
import { ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { edit, remove } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { LineIcon } from '../fields/role-icon.tsx';
import { TextField } from '../fields/text-field.tsx';
import { FittingRows } from './fitting-rows.tsx';
import { PipeChooser } from './pipe-chooser.tsx';
import { VertexRows } from './vertex-rows.tsx';

/** Everything a route is: lengths and levels, its pipe, fittings, high points, and each bend as a row of numbers. */
export function RouteDetails({ route }: { readonly route: PlanRoute }) {
  const words = ROUTE_WORDS[route.role];
  return (
    <div class="details">
      <h2>
        <LineIcon of={route.role} /> {route.name}
      </h2>
      <p class="note">
        {words.name}. {words.plain}
      </p>
      <TextField label="Name" value={route.name} onValue={(name) => edit((p) => changeRoute(p, route.id, { name }))} />
      <LineFacts route={route} />
      <h3>Pipe</h3>
      <PipeChooser route={route} />
      <h3>Fittings</h3>
      <FittingRows route={route} />
      <h3>High points between the ends</h3>
      <ChoiceField
        label="Air at high points"
        value={route.summits}
        choices={[
          { value: 'closed', words: 'closed: the pipe runs full over them' },
          { value: 'vented', words: 'vented: air goes in and out there' },
        ]}
        onValue={(summits) => edit((p) => changeRoute(p, route.id, { summits }))}
      />
      <h3>Bends</h3>
      <VertexRows route={route} />
      <p class="row-end">
        <button
          type="button"
          class="quiet danger"
          onClick={() => remove({ kind: 'route', id: route.id, vertex: null })}
        >
          Delete {route.name}
        </button>
      </p>
    </div>
  );
}

function LineFacts({ route }: { readonly route: PlanRoute }) {
  const result = evaluation.value?.lines.find(({ id }) => id === route.id);
  if (result === undefined) return null;
  return (
    <dl class="facts">
      {lineFacts(result, plan.value.units).map(({ field, name, words, value }) => (
        <div key={field} data-field={field} data-value={value}>
          <dt>{name}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}
