import type { Map as MapLibreMap } from 'maplibre-gl';
import { cellStep } from './cell-step.ts';
import type { MapViewProps } from './map-view-props.ts';

/** How far Alt and an arrow key move a point or a vertex, cells of the DEM. */
const NUDGE_CELLS = 0.5;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Keys while the map has the focus. Arrows, + and − without Alt are the map library's own. */
export class MapKeys {
  readonly #map: MapLibreMap;
  readonly #props: () => MapViewProps;
  readonly #cancelDrag: () => boolean;

  constructor(map: MapLibreMap, props: () => MapViewProps, cancelDrag: () => boolean) {
    this.#map = map;
    this.#props = props;
    this.#cancelDrag = cancelDrag;
    map.getContainer().addEventListener('keydown', this.#press, { capture: true });
    window.addEventListener('keydown', this.#giveUpDrag, { capture: true });
  }

  close(): void {
    this.#map.getContainer().removeEventListener('keydown', this.#press, { capture: true });
    window.removeEventListener('keydown', this.#giveUpDrag, { capture: true });
  }

  #press = (event: KeyboardEvent): void => {
    const { tool, selection, onDelete, onPlace, onCancelTool } = this.#props();
    const arrow = ARROWS[event.key];
    if (event.altKey && arrow && this.#nudge(arrow)) claim(event);
    else if ((event.key === 'Delete' || event.key === 'Backspace') && selection && tool === 'select') {
      claim(event);
      onDelete(selection);
    } else if (event.key === 'Escape' && tool !== 'select') {
      claim(event);
      onCancelTool();
    } else if (event.key === 'Enter' && tool !== 'select' && 'place' in tool) {
      claim(event);
      const { lng, lat } = this.#map.getCenter();
      onPlace(tool.place, { lon: lng, lat });
    }
  };

  /** Wherever the focus happens to be, Escape gives a drag up before it means anything else. */
  #giveUpDrag = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && this.#cancelDrag()) claim(event);
  };

  #nudge([east, north]: readonly [number, number]): boolean {
    const { selection, plan, terrain, onDragPoint, onDragVertex } = this.#props();
    const point = selection?.kind === 'point' ? plan.points.find(({ id }) => id === selection.id) : undefined;
    const index = selection?.kind === 'route' ? selection.vertex : null;
    const route = selection?.kind === 'route' ? plan.routes.find(({ id }) => id === selection.id) : undefined;
    const from = point?.position ?? (index === null ? undefined : route?.vertices[index]);
    if (!from) return false;
    const step = cellStep(terrain, from.lat);
    const to = { lon: from.lon + east * NUDGE_CELLS * step.lon, lat: from.lat + north * NUDGE_CELLS * step.lat };
    if (point) onDragPoint(point.id, to, 'end');
    else if (route && index !== null) onDragVertex(route.id, index, to, 'end');
    return true;
  }
}

function claim(event: KeyboardEvent): void {
  event.preventDefault();
  event.stopPropagation();
}
