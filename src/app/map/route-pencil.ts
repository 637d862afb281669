import type { Map as MapLibreMap, StyleSpecification } from 'maplibre-gl';
import { TerraDraw, TerraDrawLineStringMode } from 'terra-draw';
import { TerraDrawMapLibreGLAdapter } from 'terra-draw-maplibre-gl-adapter';
import type { RouteRole } from '../../plan/model/plan.ts';
import type { MapTheme } from '../state/map-view-props.ts';
import { MAP_COLOURS } from './map-colours.ts';

/** With what the names of a pencil's sources and layers begin. */
const PENCIL = 'rill-draw';

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

export const LINE_MODE = 'linestring';

export interface PencilSpec {
  readonly role: RouteRole;
  readonly theme: MapTheme;
  /** Where a vertex goes when the pointer is near something that catches it. */
  readonly caught: (at: { readonly containerX: number; readonly containerY: number }) => [number, number] | undefined;
}

/** terra-draw set up to draw one line in the colour of its role. */
export function routePencil(map: MapLibreMap, spec: PencilSpec): TerraDraw {
  const adapter = new TerraDrawMapLibreGLAdapter({ map, prefixId: PENCIL });
  return new TerraDraw({ adapter, modes: [lineMode(spec)] });
}

function lineMode({ role, theme, caught }: PencilSpec): TerraDrawLineStringMode {
  const colours = MAP_COLOURS[theme];
  const line = hex(colours.routes[role]);
  const ink = hex(colours.ink);
  const sheet = hex(colours.sheet);
  return new TerraDrawLineStringMode({
    snapping: { toCustom: caught },
    keyEvents: { cancel: null, finish: 'Enter' },
    pointerDistance: 12,
    showCoordinatePoints: true,
    cursors: { start: 'crosshair', close: 'crosshair' },
    styles: {
      lineStringColor: line,
      lineStringWidth: 3,
      closingPointColor: sheet,
      closingPointWidth: 5,
      closingPointOutlineColor: ink,
      closingPointOutlineWidth: 2,
      snappingPointWidth: 0,
      snappingPointOutlineWidth: 0,
      coordinatePointColor: sheet,
      coordinatePointWidth: 4,
      coordinatePointOutlineColor: ink,
      coordinatePointOutlineWidth: 1.5,
    },
  });
}

function hex(colour: string): `#${string}` {
  return `#${colour.replace('#', '')}`;
}
