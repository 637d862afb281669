import type { SymbolLayerSpecification } from 'maplibre-gl';

/** Faces of the page's own style sheet; the first name also tells the map library the weight it is to ask for. */
export const NAME_FONT = ['Gill Sans Nova Medium', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;
export const NUMBER_FONT = ['Gill Sans Nova', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;

/** A name stands beside its symbol where there is room, covers no other symbol, and is left out where there is none. */
export function nameLayout(): NonNullable<SymbolLayerSpecification['layout']> {
  return {
    'text-field': ['get', 'name'],
    'text-font': [...NAME_FONT],
    'text-size': 13,
    'text-max-width': 9,
    'text-padding': 1,
    'text-variable-anchor': ['left', 'right', 'top', 'bottom', 'top-left', 'top-right', 'bottom-left', 'bottom-right'],
    'text-radial-offset': 1.25,
    'text-justify': 'auto',
    'symbol-sort-key': ['case', ['get', 'selected'], 0, 1],
  };
}
