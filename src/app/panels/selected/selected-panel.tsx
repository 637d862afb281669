import { useLayoutEffect, useRef } from 'preact/hooks';
import { SHALLOW_TRENCH } from '../../../evaluation/site/line-profile.ts';
import { fittingRow, fittingRows } from '../../../handbook/fitting-loss.ts';
import { changeRoute, setFittings, setRelief, setTrench } from '../../../plan/edits/edit-routes.ts';
import type { FittingCount, PlanRoute } from '../../../plan/model/plan.ts';
import { lineFacts } from '../../../report/tables/line-facts.ts';
import { ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { edit, remove, showDetails } from '../../actions/edit-actions.ts';
import type { MapSelection } from '../../state/map-view-props.ts';
import { evaluation, plan, selection } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { CountField } from '../fields/count-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { LineIcon } from '../fields/role-icon.tsx';
import { TextField } from '../fields/text-field.tsx';
import { PartCautions } from './part-cautions.tsx';
import { PipeChooser } from './pipe-chooser.tsx';
import { PointDetails } from './point-details.tsx';
import { VertexRows } from './vertex-rows.tsx';

/** What is selected, as numbers that can be typed over. Another selection is read from its top. */
export function SelectedPanel() {
  const chosen = selection.value;
  const top = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    top.current?.closest('.tab-panel')?.scrollTo(0, 0);
  }, [chosen?.id]);
  return <div ref={top}>{detailsOf(chosen)}</div>;
}

function detailsOf(chosen: MapSelection | null) {
  const point = chosen?.kind === 'point' ? plan.value.points.find(({ id }) => id === chosen.id) : undefined;
  const route = chosen?.kind === 'route' ? plan.value.routes.find(({ id }) => id === chosen.id) : undefined;
  if (point !== undefined) return <PointDetails key={point.id} point={point} />;
  if (route !== undefined) return <RouteDetails key={route.id} route={route} />;
  return <NothingSelected />;
}

function NothingSelected() {
  const { points, routes } = plan.value;
  if (points.length === 0) {
    return (
      <div class="empty-answer">
        <h2>Nothing is placed yet</h2>
        <p>Choose a part from the water path and place it on the map. Its numbers then stand here.</p>
      </div>
    );
  }
  return (
    <div>
      <h2>Nothing is selected</h2>
      <p>Choose a point or a line on the map, in the water path, or here:</p>
      <ul class="pick-list">
        {points.map(({ id, name }) => (
          <li key={id}>
            <button type="button" class="link" onClick={() => showDetails({ kind: 'point', id })}>
              {name}
            </button>
          </li>
        ))}
        {routes.map(({ id, name }) => (
          <li key={id}>
            <button type="button" class="link" onClick={() => showDetails({ kind: 'route', id, vertex: null })}>
              {name}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Everything a route is: lengths and levels, its pipe, fittings, high points, and each bend as a row of numbers. */
function RouteDetails({ route }: { readonly route: PlanRoute }) {
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
      <h3>Trench</h3>
      <QuantityField
        label="Dug in by"
        note={`on its whole length; empty for a shallow trench (${writeQuantity(SHALLOW_TRENCH, 'height', plan.value.units)})`}
        kind="height"
        value={route.trenchDepth ?? null}
        units={plan.value.units}
        optional
        onValue={(depth) => edit((p) => setTrench(p, route.id, depth))}
      />
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
      {route.role === 'delivery' ? (
        <>
          <h3>Relief valve</h3>
          <QuantityField
            label="Opens at"
            note="at the pump; leave blank if there is none"
            kind="pressure"
            value={route.relief ?? null}
            units={plan.value.units}
            optional
            onValue={(opens) => edit((p) => setRelief(p, route.id, opens))}
          />
        </>
      ) : null}
      <h3>Bends</h3>
      <VertexRows route={route} />
      <PartCautions role={route.role} />
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

/** How many of each fitting a route has. */
function FittingRows({ route }: { readonly route: PlanRoute }) {
  const set = (fittings: readonly FittingCount[]) => edit((p) => setFittings(p, route.id, fittings));
  const unused = fittingRows().filter(({ id }) => !route.fittings.some(({ fitting }) => fitting === id));
  return (
    <div class="fitting-rows">
      {route.fittings.map((entry) => (
        <CountField
          key={entry.fitting}
          label={fittingRow(entry.fitting)?.label ?? entry.fitting}
          value={entry.count}
          onValue={(count) => set(route.fittings.map((each) => (each === entry ? { ...entry, count } : each)))}
        />
      ))}
      {route.fittings.length === 0 ? <p class="note">None counted.</p> : null}
      <ChoiceField
        label="Add a fitting"
        value=""
        choices={[{ value: '', words: 'choose one' }, ...unused.map(({ id, label }) => ({ value: id, words: label }))]}
        onValue={(fitting) => (fitting === '' ? [] : set([...route.fittings, { fitting, count: 1 }]))}
      />
    </div>
  );
}
