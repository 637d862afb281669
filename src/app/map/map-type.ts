import type { SymbolLayerSpecification } from 'maplibre-gl';

/** Faces of the page's own style sheet; the first name also tells the map library the weight it is to ask for. */
export const NAME_FONT = ['Gill Sans Nova Medium', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;
export const NUMBER_FONT = ['Gill Sans Nova', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;

/** Symbols are always drawn; a name gives way where it would cover another. */
export function iconLayout(): NonNullable<SymbolLayerSpecification['layout']> {
  return {
    'icon-image': ['get', 'role'],
    'icon-allow-overlap': true,
    'icon-ignore-placement': false,
    'text-field': ['get', 'name'],
    'text-font': [...NAME_FONT],
    'text-size': 13,
    'text-max-width': 9,
    'text-optional': true,
    'text-variable-anchor': ['left', 'right', 'top', 'bottom', 'top-left', 'top-right', 'bottom-left', 'bottom-right'],
    'text-radial-offset': 1.25,
    'text-justify': 'auto',
    'symbol-sort-key': ['case', ['get', 'selected'], 0, 1],
  };
}
