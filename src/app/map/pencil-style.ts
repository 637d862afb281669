import type { StyleSpecification } from 'maplibre-gl';

/** With what the names of a pencil's sources and layers begin. */
export const PENCIL = 'rill-draw';

/** The next style together with what a pencil has on the map: it adds its own sources and layers and counts on them. */
export function withPencil(before: StyleSpecification | undefined, next: StyleSpecification): StyleSpecification {
  if (!before) return next;
  const sources = Object.entries(before.sources).filter(([name]) => isPencils(name));
  const layers = before.layers.filter(({ id }) => isPencils(id));
  return {
    ...next,
    sources: { ...next.sources, ...Object.fromEntries(sources) },
    layers: [...next.layers, ...layers],
  };
}

function isPencils(name: string): boolean {
  return name.startsWith(PENCIL);
}
