import type { Map as MapLibreMap } from 'maplibre-gl';
import { DEGREE } from '../../geodesy/wgs84.ts';
import type { PointRole } from '../../plan/model/plan.ts';
import { tileGround } from '../../relief/levels/mercator.ts';
import type { TerrainAbout } from '../../terrain/grid/ground.ts';
import type { MapTool, MapViewProps } from '../state/map-view-props.ts';
import type { DrawRoute } from './draw-route.ts';

/** Without terrain a step is a metre. */
const NO_TERRAIN = { width: 1, height: 1 };
const FULL_TURN = 360;

/** One cell of the DEM in degrees, towards east and towards north. */
export function cellStep(terrain: TerrainAbout | null, lat: number): { readonly lon: number; readonly lat: number } {
  const { width, height } = terrain?.cell ?? NO_TERRAIN;
  const world = tileGround(0, lat);
  return { lon: (width * FULL_TURN) / world.east, lat: (height * FULL_TURN * Math.cos(lat * DEGREE)) / world.north };
}

/** How far Alt and an arrow key move a point or a vertex, cells of the DEM. */
const NUDGE_CELLS = 0.5;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

export interface KeyedDoings {
  readonly draw: Pick<DrawRoute, 'addByKey' | 'takeBackByKey' | 'finishByKey'>;
  /** True when there was a drag to give up. */
  readonly cancelDrag: () => boolean;
}

/** Keys while the map has the focus. Arrows, + and − without Alt are the map library's own. */
export class MapKeys {
  readonly #map: MapLibreMap;
  readonly #props: () => MapViewProps;
  readonly #doings: KeyedDoings;

  constructor(map: MapLibreMap, props: () => MapViewProps, doings: KeyedDoings) {
    this.#map = map;
    this.#props = props;
    this.#doings = doings;
    map.getContainer().addEventListener('keydown', this.#press, { capture: true });
    window.addEventListener('keydown', this.#giveUpDrag, { capture: true });
  }

  close(): void {
    this.#map.getContainer().removeEventListener('keydown', this.#press, { capture: true });
    window.removeEventListener('keydown', this.#giveUpDrag, { capture: true });
  }

  #press = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey) return;
    const { tool } = this.#props();
    const arrow = ARROWS[event.key];
    if (event.altKey) {
      if (arrow && this.#nudge(arrow)) claim(event);
    } else if (this.#take(event.key, tool)) claim(event);
  };

  /** What a key does with the tool in hand; false when it means nothing to it. */
  #take(key: string, tool: MapTool): boolean {
    if (tool === 'select') {
      if (key === 'Delete' || key === 'Backspace') return this.#delete();
      return key === 'b' || key === 'B' ? this.#walkBends(key === 'b' ? 1 : -1) : false;
    }
    if (key === 'Escape') this.#props().onCancelTool();
    else if ('place' in tool) return key === 'Enter' || key === ' ' ? this.#place(tool.place) : false;
    else if ('mark' in tool) return key === 'Enter' || key === ' ' ? this.#mark() : false;
    else if (key === ' ') this.#doings.draw.addByKey();
    else if (key === 'Backspace') this.#doings.draw.takeBackByKey();
    else return key === 'Enter' && this.#doings.draw.finishByKey();
    return true;
  }

  #delete(): boolean {
    const { selection, onDelete } = this.#props();
    if (selection) onDelete(selection);
    return selection !== null;
  }

  /** Selects the next bend of the selected route, or the one before, round and round; a bend out of sight is shown. */
  #walkBends(step: 1 | -1): boolean {
    const { selection, plan, onSelect } = this.#props();
    const route = selection?.kind === 'route' ? plan.routes.find(({ id }) => id === selection.id) : undefined;
    if (selection?.kind !== 'route' || !route) return false;
    const vertex = nextBend(route.vertices.length, selection.vertex, step);
    const bend = vertex === null ? undefined : route.vertices[vertex];
    if (!bend) return false;
    onSelect({ kind: 'route', id: route.id, vertex });
    if (!this.#map.getBounds().contains([bend.lon, bend.lat])) this.#map.jumpTo({ center: [bend.lon, bend.lat] });
    return true;
  }

  #mark(): boolean {
    const { lng, lat } = this.#map.getCenter();
    this.#props().onMark({ lon: lng, lat });
    return true;
  }

  #place(role: PointRole): boolean {
    const { lng, lat } = this.#map.getCenter();
    this.#props().onPlace(role, { lon: lng, lat });
    return true;
  }

  /** Wherever the focus happens to be, Escape gives a drag up before it means anything else. */
  #giveUpDrag = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && this.#doings.cancelDrag()) claim(event);
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

/**
 * The bend that follows another along a route, or comes before it, round and round; null for a route without bends.
 * The vertices at both ends are points of the plan and no bends.
 */
export function nextBend(vertices: number, from: number | null, step: 1 | -1): number | null {
  const bends = vertices - 2;
  if (bends < 1) return null;
  if (from === null) return step === 1 ? 1 : bends;
  return 1 + ((from - 1 + step + bends) % bends);
}
