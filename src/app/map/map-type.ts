import type { SymbolLayerSpecification } from 'maplibre-gl';

/** Faces of the page's own style sheet; the first name also tells the map library the weight it is to ask for. */
export const NAME_FONT = ['Gill Sans Nova Medium', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;
export const NUMBER_FONT = ['Gill Sans Nova', 'Gill Sans', 'Noto Sans', 'Segoe UI', 'Liberation Sans'] as const;

/** How far from its symbol a name may stand, in its own size: beside it, and further off where that is taken. */
const RINGS = [1.25, 2.1, 3] as const;

type NameAnchor = 'left' | 'right' | 'top' | 'bottom' | 'top-left' | 'top-right' | 'bottom-left' | 'bottom-right';

/** A name stands beside its symbol where there is room, covers no other symbol, and is left out where there is none. */
export function nameLayout(): NonNullable<SymbolLayerSpecification['layout']> {
  return {
    'text-field': ['get', 'name'],
    'text-font': [...NAME_FONT],
    'text-size': 13,
    'text-max-width': 9,
    'text-padding': 1,
    'text-variable-anchor-offset': RINGS.flatMap((off): [NameAnchor, [number, number]][] => [
      ['left', [off, 0]],
      ['right', [-off, 0]],
      ['top', [0, off]],
      ['bottom', [0, -off]],
      ['top-left', [0.7 * off, 0.7 * off]],
      ['top-right', [-0.7 * off, 0.7 * off]],
      ['bottom-left', [0.7 * off, -0.7 * off]],
      ['bottom-right', [-0.7 * off, -0.7 * off]],
    ]).flat(),
    'text-justify': 'auto',
    'symbol-sort-key': ['case', ['get', 'selected'], 0, 1],
  };
}
