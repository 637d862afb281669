import type { FeatureCollection } from 'geojson';
import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl';
import type { TerraDraw } from 'terra-draw';
import type { Position } from '../../geodesy/position.ts';
import type { PlanPoint, PointRole, RouteRole } from '../../plan/plan.ts';
import type { MapViewProps } from './map-view-props.ts';
import { rolesAtEnd } from './role-fit.ts';

/** How near a point of a fitting role catches the pointer, CSS pixels. */
const CATCH = 16;
const NONE: ReadonlySet<PointRole> = new Set();

/** Drawing a route with terra-draw as the input device: points of fitting roles catch its first and its last vertex. */
export class DrawRoute {
  readonly #map: MapLibreMap;
  readonly #props: () => MapViewProps;
  readonly #onPhase: () => void;
  #draw: TerraDraw | null = null;
  #role: RouteRole | null = null;
  #theme: string | null = null;
  /** Vertices that are set, without the one that follows the pointer. */
  #set: readonly Position[] = [];

  constructor(map: MapLibreMap, props: () => MapViewProps, onPhase: () => void) {
    this.#map = map;
    this.#props = props;
    this.#onPhase = onPhase;
  }

  /** Roles that the next vertex may meet. */
  targets(): ReadonlySet<PointRole> {
    if (!this.#role) return NONE;
    return rolesAtEnd(this.#role, this.#set.length === 0 ? 'from' : 'to');
  }

  follow({ tool, look }: MapViewProps): void {
    const role = tool !== 'select' && 'draw' in tool ? tool.draw : null;
    if (role === this.#role && (role === null || look.theme === this.#theme)) return;
    this.close();
    if (role !== null) this.#start(role);
    this.#onPhase();
  }

  close(): void {
    if (this.#draw?.enabled) this.#draw.stop();
    this.#draw = null;
    this.#role = null;
    this.#set = [];
    this.#highlight(null);
  }

  /** terra-draw is fetched with the first route that is drawn; until then the tool waits. */
  async #start(role: RouteRole): Promise<void> {
    const { theme } = this.#props().look;
    this.#role = role;
    this.#theme = theme;
    const { LINE_MODE, routePencil } = await import('./route-pencil.ts');
    if (this.#role !== role || this.#theme !== theme || this.#draw) return;
    const draw = routePencil(this.#map, { role, theme, caught: (at) => this.#caught(at) });
    draw.start();
    draw.setMode(LINE_MODE);
    draw.on('change', () => this.#changed());
    draw.on('finish', () => this.#finish());
    this.#draw = draw;
    this.#map.getCanvas().focus();
  }

  /** The point that catches the pointer, shown by a ring. */
  #caught(at: { readonly containerX: number; readonly containerY: number }): [number, number] | undefined {
    const point = this.#nearest(at.containerX, at.containerY);
    this.#highlight(point);
    return point ? [point.position.lon, point.position.lat] : undefined;
  }

  #nearest(x: number, y: number): PlanPoint | null {
    const roles = this.targets();
    let best: PlanPoint | null = null;
    let least = CATCH;
    for (const point of this.#props().plan.points) {
      if (!roles.has(point.role)) continue;
      const at = this.#map.project([point.position.lon, point.position.lat]);
      const off = Math.hypot(at.x - x, at.y - y);
      if (off > least) continue;
      best = point;
      least = off;
    }
    return best;
  }

  #changed(): void {
    const vertices = this.#drawnSoFar();
    if (vertices.length === this.#set.length) return;
    this.#set = vertices;
    this.#onPhase();
    const last = vertices[vertices.length - 1];
    // A click on a point where the route may end ends it; let terra-draw leave its own handler first.
    if (vertices.length >= 2 && last && this.#pointAt(last, 'to')) queueMicrotask(() => this.#finish());
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
    const role = this.#role;
    const vertices = withoutRepeats(this.#drawnSoFar());
    if (!role || !this.#draw) return;
    // Leaving the mode drops a line that is still being drawn; the next one starts afresh.
    this.#draw.setMode(this.#draw.getMode());
    this.#draw.clear();
    this.#set = [];
    this.#highlight(null);
    this.#onPhase();
    const [first, last] = [vertices[0], vertices[vertices.length - 1]];
    if (!first || !last || vertices.length < 2) return;
    const from = this.#pointAt(first, 'from', role);
    const to = this.#pointAt(last, 'to', role);
    const whole = [from?.position ?? first, ...vertices.slice(1, -1), to?.position ?? last];
    this.#props().onDrawn(role, whole, from?.id ?? null, to?.id ?? null);
  }

  /** The fitting point on which a vertex lies, within a hundredth of a pixel's rounding. */
  #pointAt({ lon, lat }: Position, end: 'from' | 'to', role: RouteRole | null = this.#role): PlanPoint | null {
    if (!role) return null;
    const roles = rolesAtEnd(role, end);
    const at = this.#map.project([lon, lat]);
    const lies = ({ position }: PlanPoint) => this.#map.project([position.lon, position.lat]).dist(at) < 1;
    return this.#props().plan.points.find((point) => roles.has(point.role) && lies(point)) ?? null;
  }

  #highlight(point: PlanPoint | null): void {
    const data: FeatureCollection = { type: 'FeatureCollection', features: [] };
    if (point) {
      const { lon, lat } = point.position;
      const geometry = { type: 'Point' as const, coordinates: [lon, lat] };
      data.features.push({ type: 'Feature', properties: { name: point.name }, geometry });
    }
    this.#map.getSource<GeoJSONSource>('snap')?.setData(data);
  }
}

function withoutRepeats(vertices: readonly Position[]): Position[] {
  return vertices.filter(({ lon, lat }, at) => {
    const before = vertices[at - 1];
    return !before || before.lon !== lon || before.lat !== lat;
  });
}
