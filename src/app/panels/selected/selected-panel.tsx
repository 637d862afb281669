import { useLayoutEffect, useRef } from 'preact/hooks';
import { showDetails } from '../../actions/edit-actions.ts';
import type { MapSelection } from '../../state/map-view-props.ts';
import { plan, selection } from '../../state/store.ts';
import { PointDetails } from './point-details.tsx';
import { RouteDetails } from './route-details.tsx';

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
        <p>Choose a part from the way of the water and place it on the map. Its numbers then stand here.</p>
      </div>
    );
  }
  return (
    <div>
      <h2>Nothing is selected</h2>
      <p>Choose a point or a line on the map, in the way of the water, or here:</p>
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
