import { destination } from '../../../geodesy/geodesic.ts';
import type { Position } from '../../../geodesy/position.ts';
import { moveVertex } from '../../../plan/edits/edit-vertices.ts';
import type { PlanRoute } from '../../../plan/model/plan.ts';
import { bendWords } from '../../../report/words/position-words.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import { edit, putVertex, remove, sayRefusal } from '../../actions/edit-actions.ts';
import { grounded, plan, selection } from '../../state/store.ts';
import { PositionFields } from './position-fields.tsx';

/** One press of a nudge moves a bend by this much, in the unit shown, m. */
const NUDGE = { metric: { metres: 1, words: '1 m' }, us: { metres: 0.9144, words: '3 ft' } } as const;
const WAYS = [
  { words: 'north', azimuth: 0, arrow: '↑' },
  { words: 'south', azimuth: 180, arrow: '↓' },
  { words: 'west', azimuth: -90, arrow: '←' },
  { words: 'east', azimuth: 90, arrow: '→' },
] as const;

/** Every bend of a route as a row of numbers: the way to draw without a pointer. */
export function VertexRows({ route }: { readonly route: PlanRoute }) {
  const last = route.vertices.length - 1;
  const chosen = selection.value?.kind === 'route' ? selection.value.vertex : null;
  return (
    <ol class="vertex-rows">
      {route.vertices.map((vertex, index) => (
        <li key={index} class={chosen === index ? 'chosen' : ''}>
          {index === 0 || index === last ? (
            <p class="note">{index === 0 ? `Starts at ${endName(route.from)}` : `Ends at ${endName(route.to)}`}</p>
          ) : (
            <Bend route={route} index={index} position={vertex} />
          )}
          {index === last ? null : (
            <button
              type="button"
              class="quiet"
              onClick={() => putVertex(route.id, index + 1, between(vertex, route.vertices[index + 1] ?? vertex))}
            >
              Add a bend<span class="unseen"> after {index === 0 ? 'the start' : `bend ${index}`}</span>
            </button>
          )}
        </li>
      ))}
    </ol>
  );
}

function Bend({
  route,
  index,
  position,
}: {
  readonly route: PlanRoute;
  readonly index: number;
  readonly position: Position;
}) {
  const move = (to: Position) => edit((p) => moveVertex(p, route.id, index, to));
  const { metres, words } = NUDGE[plan.value.units];
  const line = grounded.value?.ground.lines.get(route.id);
  return (
    <div class="bend">
      <span class="bend-number">{index}</span>
      <p class="note">{bendWords(line, index, plan.value.units)}</p>
      <PositionFields
        label={`Bend ${index} of ${route.name}`}
        position={position}
        onPosition={(to) => firstProblem(move(to))}
      />
      <fieldset class="nudges" aria-label={`Move bend ${index} by ${words}`}>
        {WAYS.map((way) => (
          <button
            key={way.words}
            type="button"
            class="quiet"
            onClick={() => sayRefusal(move(destination(position, { azimuth: way.azimuth, distance: metres })))}
          >
            <span aria-hidden="true">{way.arrow}</span>
            <span class="unseen">
              Move bend {index} {way.words} {words}
            </span>
          </button>
        ))}
        <button
          type="button"
          class="quiet danger"
          onClick={() => remove({ kind: 'route', id: route.id, vertex: index })}
        >
          <span aria-hidden="true">×</span>
          <span class="unseen">Delete bend {index}</span>
        </button>
      </fieldset>
    </div>
  );
}

function endName(id: string): string {
  return plan.value.points.find((point) => point.id === id)?.name ?? id;
}

function between(one: Position, other: Position): Position {
  return { lon: (one.lon + other.lon) / 2, lat: (one.lat + other.lat) / 2 };
}
