import { lineString, nearestPointOnLine } from '@turf/turf';
import type { MapGeoJSONFeature, Map as MapLibreMap, MapMouseEvent, MapTouchEvent, Point } from 'maplibre-gl';
import type { Position } from '../../geodesy/position.ts';
import { nearestAlong } from '../../terrain/ground/ground-place.ts';
import type { DragPhase, MapViewProps } from '../state/map-view-props.ts';

/** What of the plan lies under the pointer, what can be dragged first. */
type Hit =
  | { readonly kind: 'vertex'; readonly route: string; readonly index: number }
  | { readonly kind: 'point'; readonly id: string }
  | { readonly kind: 'route'; readonly id: string }
  | null;

/** How far beside a thing the pointer may be, CSS pixels. */
const REACH = { mouse: 5, touch: 14 } as const;

function hitTest(map: MapLibreMap, at: Point, reach: number): Hit {
  const box: [[number, number], [number, number]] = [
    [at.x - reach, at.y - reach],
    [at.x + reach, at.y + reach],
  ];
  const found = (layers: string[]): MapGeoJSONFeature | undefined =>
    map.queryRenderedFeatures(box, { layers: layers.filter((layer) => map.getLayer(layer)) })[0];
  const vertex = found(['vertices'])?.properties;
  if (vertex) return { kind: 'vertex', route: String(vertex.route), index: Number(vertex.index) };
  const point = found(['points'])?.properties;
  if (point) return { kind: 'point', id: String(point.id) };
  const route = found(['route-casing'])?.properties;
  return route ? { kind: 'route', id: String(route.id) } : null;
}

interface Drag {
  readonly hit: Exclude<Hit, null | { kind: 'route' }>;
  readonly start: Point;
  moved: boolean;
  last: Position;
  frame: number;
}

/** A press that wanders less than this is a click, CSS pixels. */
const STILL = 3;

/** The pointer on the map: choosing, dragging, inserting, placing, hovering. */
export class MapPointer {
  readonly #map: MapLibreMap;
  readonly #props: () => MapViewProps;
  #drag: Drag | null = null;
  #swallowClick = false;
  /** Whether the press of the coming click was one that chooses: a click that ends a line does not also choose its end. */
  #choosing = true;
  #hovered = false;

  constructor(map: MapLibreMap, props: () => MapViewProps) {
    this.#map = map;
    this.#props = props;
    map.on('mousedown', this.#press);
    map.on('touchstart', this.#press);
    map.on('mousemove', this.#move);
    map.on('touchmove', this.#move);
    map.on('mouseup', this.#release);
    map.on('touchend', this.#release);
    map.on('touchcancel', this.#giveUp);
    map.on('click', this.#click);
    map.on('mouseout', this.#leave);
    map.on('movestart', this.#away);
    window.addEventListener('mouseup', this.#releaseOutside);
  }

  follow({ tool }: MapViewProps): void {
    if (tool !== 'select') this.cancelDrag();
    this.#map.getCanvas().style.cursor = tool === 'select' ? '' : 'crosshair';
  }

  /** Gives a drag up, if there is one; true when there was. */
  cancelDrag(): boolean {
    const drag = this.#drag;
    if (!drag) return false;
    this.#endDrag();
    this.#swallowClick = true;
    if (drag.moved) this.#tell(drag, 'cancel');
    return true;
  }

  close(): void {
    this.#endDrag();
    window.removeEventListener('mouseup', this.#releaseOutside);
  }

  #press = (event: MapMouseEvent | MapTouchEvent): void => {
    this.#swallowClick = false;
    const { tool, selection, onSelect } = this.#props();
    this.#choosing = tool === 'select';
    const touch = event.type === 'touchstart';
    const original = event.originalEvent;
    if (tool !== 'select' || ('button' in original && original.button !== 0)) return;
    if ('touches' in original && original.touches.length > 1) return;
    const hit = hitTest(this.#map, event.point, touch ? REACH.touch : REACH.mouse);
    if (!hit || hit.kind === 'route') return;
    const chosen = hit.kind === 'vertex' || (selection?.kind === 'point' && selection.id === hit.id);
    // A finger that pans the map must not carry off a point it happens to touch.
    if (touch && !chosen) return;
    event.preventDefault();
    this.#map.dragPan.disable();
    this.#drag = { hit, start: event.point, moved: false, last: positionOf(event), frame: 0 };
    if (hit.kind === 'vertex') onSelect({ kind: 'route', id: hit.route, vertex: hit.index });
    else if (!chosen) onSelect({ kind: 'point', id: hit.id });
  };

  #move = (event: MapMouseEvent | MapTouchEvent): void => {
    const position = positionOf(event);
    this.#props().onPointer(position);
    const drag = this.#drag;
    if (!drag) {
      if (event.type === 'mousemove') this.#hover(event.point, position);
      return;
    }
    drag.last = position;
    drag.moved ||= drag.start.dist(event.point) > STILL;
    if (!drag.moved || drag.frame !== 0) return;
    drag.frame = requestAnimationFrame(() => {
      drag.frame = 0;
      this.#tell(drag, 'move');
    });
  };

  #release = (): void => {
    const drag = this.#drag;
    if (!drag) return;
    this.#endDrag();
    this.#swallowClick = true;
    if (drag.moved) this.#tell(drag, 'end');
  };

  /** A button let go beyond the map ends the drag where it left. */
  #releaseOutside = (event: MouseEvent): void => {
    if (!this.#map.getContainer().contains(event.target as Node | null)) this.#release();
  };

  #giveUp = (): void => {
    this.cancelDrag();
  };

  #click = (event: MapMouseEvent): void => {
    if (this.#swallowClick) return;
    const { tool, selection, plan, onPlace, onMark, onSelect, onInsertVertex } = this.#props();
    const position = positionOf(event);
    if (this.#choosing !== (tool === 'select')) return;
    if (tool !== 'select') {
      if ('place' in tool) onPlace(tool.place, position);
      else if ('mark' in tool) onMark(position);
      return;
    }
    const hit = hitTest(this.#map, event.point, REACH.mouse);
    if (!hit) onSelect(null);
    else if (hit.kind === 'vertex') onSelect({ kind: 'route', id: hit.route, vertex: hit.index });
    else if (hit.kind === 'point') onSelect({ kind: 'point', id: hit.id });
    else if (selection?.kind === 'route' && selection.id === hit.id) {
      const route = plan.routes.find(({ id }) => id === hit.id);
      const place = route && placeOnRoute(route.vertices, position);
      if (place) onInsertVertex(hit.id, place.index, place.position);
    } else onSelect({ kind: 'route', id: hit.id, vertex: null });
  };

  /** What was read of a place is no longer what lies under the pointer. */
  #away = (): void => {
    if (this.#drag === null) this.#props().onPointer(null);
  };

  #leave = (): void => {
    this.#props().onPointer(null);
    this.#unhover();
  };

  #hover(at: Point, position: Position): void {
    const { tool, grounds, onHover } = this.#props();
    const hit = tool === 'select' ? hitTest(this.#map, at, REACH.mouse) : null;
    if (tool === 'select') this.#map.getCanvas().style.cursor = cursorOver(hit);
    const route = routeOf(hit);
    const ground = route === null ? undefined : grounds.get(route);
    if (route === null || !ground) {
      this.#unhover();
      return;
    }
    onHover(route, nearestAlong(ground, position));
    this.#hovered = true;
  }

  #unhover(): void {
    if (this.#hovered) this.#props().onHover(null, null);
    this.#hovered = false;
  }

  #endDrag(): void {
    if (this.#drag) cancelAnimationFrame(this.#drag.frame);
    this.#drag = null;
    this.#map.dragPan.enable();
  }

  #tell({ hit, last }: Drag, phase: DragPhase): void {
    const { onDragPoint, onDragVertex } = this.#props();
    if (hit.kind === 'point') onDragPoint(hit.id, last, phase);
    else onDragVertex(hit.route, hit.index, last, phase);
  }
}

function positionOf(event: MapMouseEvent | MapTouchEvent): Position {
  return { lon: event.lngLat.lng, lat: event.lngLat.lat };
}

function cursorOver(hit: Hit): string {
  if (!hit) return '';
  return hit.kind === 'route' ? 'pointer' : 'grab';
}

function routeOf(hit: Hit): string | null {
  if (hit?.kind === 'route') return hit.id;
  return hit?.kind === 'vertex' ? hit.route : null;
}

/** The place on a drawn line nearest to a position, and the place a vertex put there would take among its vertices. */
export function placeOnRoute(
  vertices: readonly Position[],
  { lon, lat }: Position,
): { readonly index: number; readonly position: Position } | null {
  if (vertices.length < 2) return null;
  const line = lineString(vertices.map((vertex) => [vertex.lon, vertex.lat]));
  const nearest = nearestPointOnLine(line, [lon, lat]);
  const [foundLon = lon, foundLat = lat] = nearest.geometry.coordinates;
  return { index: nearest.properties.segmentIndex + 1, position: { lon: foundLon, lat: foundLat } };
}
