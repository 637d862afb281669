import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl';
import type { RouteRole } from '../../plan/model/plan.ts';
import type { MapLook } from '../state/map-view-props.ts';
import { MAP_COLOURS, type MapColours } from './map-colours.ts';
import { NUMBER_FONT, nameLayout } from './map-type.ts';

/** Dash of each kind of route in widths of its line, the same as in the profile; a drive pipe is a line with a core. */
const ROUTES: Readonly<Record<RouteRole, { readonly width: number; readonly dash?: readonly number[] }>> = {
  supply: { width: 3 },
  drive: { width: 5.5 },
  delivery: { width: 3, dash: [3.2, 1.1] },
  gravity: { width: 3, dash: [3.2, 1.1, 0.7, 1.1] },
};
/** How strongly a tank that is set aside and its lines are drawn. */
const SET_ASIDE = 0.45;

const ROLES: readonly RouteRole[] = ['supply', 'drive', 'delivery', 'gravity'];

/** Every layer of the map from below to above, as the look wants it. */
export function mapLayers(look: MapLook): LayerSpecification[] {
  const colours = MAP_COLOURS[look.theme];
  return [
    { id: 'paper', type: 'background', paint: { 'background-color': colours.paper } },
    ...groundLayers(look, colours),
    ...areaLayers(colours),
    ...faintLayers(colours),
    ...routeLayers(colours),
    ...markLayers(colours),
    ...pointLayers(colours),
    ...deviceLayers(colours),
  ];
}

/** Where the device is: a full dot, which no point of a plan is, in a ring. */
function deviceLayers(colours: MapColours): LayerSpecification[] {
  return [
    {
      id: 'device-ring',
      type: 'line',
      source: 'device',
      filter: ['==', ['geometry-type'], 'Polygon'],
      paint: { 'line-color': colours.ink, 'line-width': 1.5, 'line-dasharray': [2, 2] },
    },
    {
      id: 'device-dot',
      type: 'circle',
      source: 'device',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': 6,
        'circle-color': colours.ink,
        'circle-stroke-color': colours.sheet,
        'circle-stroke-width': 3,
      },
    },
  ];
}

function groundLayers(look: MapLook, colours: MapColours): LayerSpecification[] {
  const visibility = look.contours ? 'visible' : 'none';
  return [
    {
      id: 'web',
      type: 'raster',
      source: 'web',
      paint: { 'raster-opacity': look.picture, 'raster-fade-duration': 0 },
    },
    {
      id: 'picture',
      type: 'raster',
      source: 'picture',
      paint: { 'raster-opacity': look.picture, 'raster-fade-duration': 0 },
    },
    {
      id: 'relief',
      type: 'raster',
      source: 'relief',
      paint: { 'raster-opacity': look.hillshade, 'raster-fade-duration': 0 },
    },
    { id: 'slope', type: 'raster', source: 'slope', paint: { 'raster-fade-duration': 0 } },
    { id: 'reach', type: 'raster', source: 'reach', paint: { 'raster-fade-duration': 0 } },
    {
      id: 'void',
      type: 'fill',
      source: 'contour',
      'source-layer': 'void',
      paint: { 'fill-pattern': 'void-hatch', 'fill-antialias': false },
    },
    ...contourLayers(visibility, colours),
    {
      id: 'outline',
      type: 'line',
      source: 'outline',
      paint: { 'line-color': colours.rule, 'line-width': 1, 'line-opacity': 0.7 },
    },
  ];
}

function contourLayers(visibility: 'visible' | 'none', colours: MapColours): LayerSpecification[] {
  return [
    {
      id: 'contour',
      type: 'line',
      source: 'contour',
      'source-layer': 'contour',
      filter: ['!', ['get', 'index']],
      layout: { visibility, 'line-join': 'round', 'line-cap': 'round' },
      paint: { 'line-color': colours.contour, 'line-width': 0.7, 'line-opacity': 0.55 },
    },
    {
      id: 'contour-index',
      type: 'line',
      source: 'contour',
      'source-layer': 'contour',
      filter: ['get', 'index'],
      layout: { visibility, 'line-join': 'round', 'line-cap': 'round' },
      paint: { 'line-color': colours.contourIndex, 'line-width': 1.2, 'line-opacity': 0.65 },
    },
    {
      id: 'contour-label',
      type: 'symbol',
      source: 'contour',
      'source-layer': 'contour',
      filter: ['get', 'index'],
      layout: {
        visibility,
        'symbol-placement': 'line',
        'symbol-spacing': 180,
        'text-field': ['get', 'label'],
        'text-font': [...NUMBER_FONT],
        'text-size': 11,
        'text-max-angle': 40,
        'text-padding': 14,
        'text-pitch-alignment': 'viewport',
      },
      paint: {
        'text-color': colours.contourIndex,
        'text-halo-color': colours.contourHalo,
        'text-halo-width': 1.6,
        'text-halo-blur': 0.6,
      },
    },
  ];
}

/** Another plan beneath this one: dotted lines and hollow places in one colour. */
/** Areas that must not be crossed: an outline with a hatch, their names, and their gates as rings. */
function areaLayers(colours: MapColours): LayerSpecification[] {
  return [
    {
      id: 'area-fill',
      type: 'fill',
      source: 'areas',
      filter: ['==', ['geometry-type'], 'Polygon'],
      paint: { 'fill-color': colours.ink, 'fill-opacity': 0.16 },
    },
    {
      id: 'area-line',
      type: 'line',
      source: 'areas',
      filter: ['!=', ['geometry-type'], 'Point'],
      paint: { 'line-color': colours.ink, 'line-width': 2, 'line-dasharray': [3, 1.5] },
    },
    {
      id: 'area-place',
      type: 'circle',
      source: 'areas',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': ['match', ['get', 'kind'], 'gate', 7, 4],
        'circle-color': colours.sheet,
        'circle-stroke-color': colours.ink,
        'circle-stroke-width': 2.5,
      },
    },
    {
      id: 'area-name',
      type: 'symbol',
      source: 'areas',
      filter: ['==', ['geometry-type'], 'Polygon'],
      layout: { ...nameLayout(), 'text-field': ['get', 'name'] },
      paint: { 'text-color': colours.ink, 'text-halo-color': colours.sheet, 'text-halo-width': 1.5 },
    },
  ];
}

function faintLayers(colours: MapColours): LayerSpecification[] {
  return [
    {
      id: 'faint-routes',
      type: 'line',
      source: 'faint',
      layout: { 'line-cap': 'round' },
      paint: { 'line-color': colours.ink, 'line-width': 2.5, 'line-opacity': 0.75, 'line-dasharray': [0.1, 2.2] },
    },
    {
      id: 'faint-points',
      type: 'circle',
      source: 'faint',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': 5,
        'circle-color': 'transparent',
        'circle-stroke-color': colours.ink,
        'circle-stroke-opacity': 0.75,
        'circle-stroke-width': 1.5,
      },
    },
  ];
}

function routeLayers(colours: MapColours): LayerSpecification[] {
  const line = { source: 'routes', type: 'line', layout: { 'line-join': 'round' } } as const;
  return [
    {
      ...line,
      id: 'route-selected',
      filter: ['get', 'selected'],
      layout: { 'line-join': 'round', 'line-cap': 'round' },
      paint: { 'line-color': colours.ink, 'line-width': 11, 'line-opacity': 0.5 },
    },
    {
      ...line,
      id: 'route-casing',
      layout: { 'line-join': 'round', 'line-cap': 'round' },
      paint: {
        'line-color': colours.sheet,
        'line-width': ['match', ['get', 'role'], 'drive', 8, 5.6],
        'line-opacity': ['case', ['get', 'faded'], SET_ASIDE / 2, 0.9],
      },
    },
    ...ROLES.map((role): LayerSpecification => {
      const { width, dash } = ROUTES[role];
      const opacity: ExpressionSpecification = ['case', ['get', 'faded'], SET_ASIDE, 1];
      const paint = { 'line-color': colours.routes[role], 'line-width': width, 'line-opacity': opacity };
      return {
        ...line,
        id: `route-${role}`,
        filter: ['==', ['get', 'role'], role],
        paint: dash ? { ...paint, 'line-dasharray': [...dash] } : paint,
      };
    }),
    {
      ...line,
      id: 'route-core',
      filter: ['==', ['get', 'role'], 'drive'],
      paint: { 'line-color': colours.sheet, 'line-width': 1.4 },
    },
  ];
}

function markLayers(colours: MapColours): LayerSpecification[] {
  return [
    {
      id: 'turnings',
      type: 'symbol',
      source: 'turnings',
      minzoom: 14,
      layout: { 'icon-image': ['get', 'kind'], 'icon-allow-overlap': false, 'icon-padding': 1 },
    },
    {
      id: 'vertices',
      type: 'circle',
      source: 'vertices',
      paint: {
        'circle-radius': ['case', ['get', 'selected'], 7, 5],
        'circle-color': ['case', ['get', 'selected'], colours.focus, colours.sheet],
        'circle-stroke-color': colours.ink,
        'circle-stroke-width': 1.5,
      },
    },
  ];
}

function pointLayers(colours: MapColours): LayerSpecification[] {
  const ring = { 'circle-color': 'transparent', 'circle-stroke-color': colours.focus } as const;
  return [
    {
      id: 'point-targets',
      type: 'circle',
      source: 'points',
      filter: ['get', 'target'],
      paint: { ...ring, 'circle-radius': 18, 'circle-stroke-width': 2, 'circle-stroke-opacity': 0.75 },
    },
    {
      id: 'point-selected',
      type: 'circle',
      source: 'points',
      filter: ['get', 'selected'],
      paint: { 'circle-color': colours.focus, 'circle-opacity': 0.3, 'circle-radius': 19 },
    },
    {
      id: 'point-names',
      type: 'symbol',
      source: 'points',
      layout: nameLayout(),
      paint: {
        'text-opacity': ['case', ['get', 'faded'], 0.7, 1],
        'text-color': colours.ink,
        'text-halo-color': colours.sheet,
        'text-halo-width': 2,
        'text-halo-blur': 0.5,
      },
    },
    {
      id: 'points',
      type: 'symbol',
      source: 'points',
      layout: { 'icon-image': ['get', 'role'], 'icon-allow-overlap': true, 'icon-padding': 0 },
      paint: { 'icon-opacity': ['case', ['get', 'faded'], SET_ASIDE, 1] },
    },
    {
      id: 'sketch',
      type: 'line',
      source: 'sketch',
      paint: { 'line-color': colours.focus, 'line-width': 3 },
    },
    {
      id: 'sketch-vertices',
      type: 'circle',
      source: 'sketch',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': 5,
        'circle-color': colours.sheet,
        'circle-stroke-color': colours.focus,
        'circle-stroke-width': 2,
      },
    },
    {
      id: 'snap',
      type: 'circle',
      source: 'snap',
      paint: { ...ring, 'circle-radius': 20, 'circle-stroke-width': 4 },
    },
    {
      id: 'ringed',
      type: 'circle',
      source: 'ringed',
      paint: {
        'circle-radius': 25,
        'circle-color': 'transparent',
        'circle-stroke-color': colours.sheet,
        'circle-stroke-width': 7,
        'circle-stroke-opacity': 0.75,
      },
    },
    {
      id: 'ringed-core',
      type: 'circle',
      source: 'ringed',
      paint: { ...ring, 'circle-radius': 27, 'circle-stroke-width': 3 },
    },
    {
      id: 'cursor',
      type: 'circle',
      source: 'cursor',
      paint: {
        'circle-radius': 6,
        'circle-color': colours.sheet,
        'circle-stroke-color': colours.focus,
        'circle-stroke-width': 3,
      },
    },
  ];
}
