import type { Map as MapLibreMap } from 'maplibre-gl';
import type { TerraDraw } from 'terra-draw';
import type { Position } from '../../geodesy/position.ts';
import type { PlanPoint, PointRole, RouteRole } from '../../plan/model/plan.ts';
import type { MapTheme, MapViewProps } from '../state/map-view-props.ts';
import { catchingPoint, pointAtEnd, rolesAtEnd, wholeRoute } from './route-ends.ts';

const NONE: ReadonlySet<PointRole> = new Set();
const NO_VERTICES: readonly Position[] = [];

/** What of a route being drawn the map shows itself. */
export interface DrawPhase {
  /** Roles that the next vertex may meet. */
  readonly targets: ReadonlySet<PointRole>;
  /** The point that would catch the next vertex. */
  readonly caught: PlanPoint | null;
  /** Vertices set by key; those set by pointer are terra-draw's to show. */
  readonly keyed: readonly Position[];
}

/**
 * Drawing a route: by pointer with terra-draw as the input device, by key with vertices in the middle of the map. Points
 * of fitting roles catch the first and the last vertex.
 */
export class DrawRoute {
  readonly #map: MapLibreMap;
  readonly #props: () => MapViewProps;
  readonly #onPhase: () => void;
  #draw: TerraDraw | null = null;
  #role: RouteRole | null = null;
  #theme: MapTheme | null = null;
  /** Vertices set by pointer, without the one that follows it. */
  #set: readonly Position[] = [];
  #keyed: readonly Position[] = NO_VERTICES;
  #caught: PlanPoint | null = null;

  constructor(map: MapLibreMap, props: () => MapViewProps, onPhase: () => void) {
    this.#map = map;
    this.#props = props;
    this.#onPhase = onPhase;
  }

  get phase(): DrawPhase {
    return { targets: this.#targets(), caught: this.#caught, keyed: this.#keyed };
  }

  follow({ tool, look }: MapViewProps): void {
    const role = tool !== 'select' && 'draw' in tool ? tool.draw : null;
    if (role === this.#role && (role === null || look.theme === this.#theme)) return;
    this.close();
    if (role !== null) void this.#start(role, look.theme);
    this.#onPhase();
  }

  close(): void {
    if (this.#draw?.enabled) this.#draw.stop();
    this.#draw = null;
    this.#role = null;
    this.#forget();
  }

  /** Sets a vertex in the middle of the map, or on the point that lies there. */
  addByKey(): void {
    if (!this.#role || this.#set.length > 0) return;
    const { clientWidth, clientHeight } = this.#map.getContainer();
    const point = this.#nearest(clientWidth / 2, clientHeight / 2);
    const { lng, lat } = this.#map.getCenter();
    this.#keyed = [...this.#keyed, point?.position ?? { lon: lng, lat }];
    if (point && this.#keyed.length >= 2) this.finishByKey();
    else this.#onPhase();
  }

  takeBackByKey(): void {
    this.#keyed = this.#keyed.slice(0, -1);
    this.#onPhase();
  }

  /** True when there was a line to finish. */
  finishByKey(): boolean {
    if (this.#keyed.length < 2) return false;
    this.#handOver(this.#keyed);
    return true;
  }

  /** terra-draw is fetched with the first route that is drawn; until then the tool waits. */
  async #start(role: RouteRole, theme: MapTheme): Promise<void> {
    this.#role = role;
    this.#theme = theme;
    const { LINE_MODE, routePencil } = await import('./route-pencil.ts');
    if (this.#role !== role || this.#theme !== theme || this.#draw) return;
    const draw = routePencil(this.#map, { role, theme, caught: (at) => this.#catch(at) });
    draw.start();
    draw.setMode(LINE_MODE);
    draw.on('change', () => this.#changed());
    draw.on('finish', () => this.#finish());
    this.#draw = draw;
    this.#map.getCanvas().focus({ preventScroll: true });
  }

  #targets(): ReadonlySet<PointRole> {
    if (!this.#role) return NONE;
    return rolesAtEnd(this.#role, this.#set.length + this.#keyed.length === 0 ? 'from' : 'to');
  }

  /** The point that catches the pointer. */
  #catch(at: { readonly containerX: number; readonly containerY: number }): [number, number] | undefined {
    const point = this.#nearest(at.containerX, at.containerY);
    if (point !== this.#caught) {
      this.#caught = point;
      this.#onPhase();
    }
    return point ? [point.position.lon, point.position.lat] : undefined;
  }

  #nearest(x: number, y: number): PlanPoint | null {
    return catchingPoint(this.#map, this.#props().plan.points, this.#targets(), { x, y });
  }

  #changed(): void {
    const vertices = this.#drawnSoFar();
    if (vertices.length === this.#set.length) return;
    this.#set = vertices;
    this.#keyed = NO_VERTICES;
    this.#onPhase();
    const position = vertices[vertices.length - 1];
    const { plan } = this.#props();
    if (vertices.length < 2 || !position || !this.#role) return;
    // A click on a point where the route may end ends it; let terra-draw leave its own handler first.
    if (pointAtEnd(this.#map, plan.points, this.#role, { kind: 'to', position })) queueMicrotask(() => this.#finish());
  }

  /** The vertices that are set; while a line is being drawn its last coordinate only follows the pointer. */
  #drawnSoFar(): readonly Position[] {
    for (const { geometry, properties } of this.#draw?.getSnapshot() ?? []) {
      if (geometry.type !== 'LineString') continue;
      const coordinates =
        properties.currentlyDrawing === true ? geometry.coordinates.slice(0, -1) : geometry.coordinates;
      return coordinates.map(([lon = 0, lat = 0]) => ({ lon, lat }));
    }
    return [];
  }

  #finish(): void {
    const vertices = this.#drawnSoFar();
    if (vertices.length > 0) this.#handOver(vertices);
  }

  #handOver(vertices: readonly Position[]): void {
    const role = this.#role;
    const { plan, onDrawn } = this.#props();
    // Leaving the mode drops a line that is still being drawn; the next one starts afresh.
    this.#draw?.setMode(this.#draw.getMode());
    this.#draw?.clear();
    this.#forget();
    this.#onPhase();
    const route = role && wholeRoute(this.#map, plan.points, role, vertices);
    if (role && route) onDrawn(role, route.vertices, route.from, route.to);
  }

  #forget(): void {
    this.#set = [];
    this.#keyed = NO_VERTICES;
    this.#caught = null;
  }
}
