import type { NoField } from '../model/field-of-plan.ts';

/** What a plan lacks to find a fault at its pump by. */
export const MISSING: Readonly<Record<NoField, { readonly found: string; readonly expected: string }>> = {
  'no-pump': { found: 'no pump on known ground', expected: 'a plan with a source, a pump and what the pump is' },
  'no-drive-pipe': { found: 'no drive pipe', expected: 'a plan whose drive pipe is drawn on known ground' },
  'no-delivery': { found: 'no delivery line', expected: 'a plan with a delivery line to a tank' },
  'no-fall': { found: 'no fall', expected: 'a pump that stands lower than the water at its drive pipe' },
  'already-arrives': {
    found: 'an outlet that lies lower than the source',
    expected: 'a delivery that needs a pump',
  },
};
