import type { MapGeoJSONFeature, Map as MapLibreMap, Point } from 'maplibre-gl';

/** What of the plan lies under the pointer, what can be dragged first. */
export type Hit =
  | { readonly kind: 'vertex'; readonly route: string; readonly index: number }
  | { readonly kind: 'point'; readonly id: string }
  | { readonly kind: 'route'; readonly id: string }
  | null;

/** How far beside a thing the pointer may be, CSS pixels. */
export const REACH = { mouse: 5, touch: 14 } as const;

export function hitTest(map: MapLibreMap, at: Point, reach: number): Hit {
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
