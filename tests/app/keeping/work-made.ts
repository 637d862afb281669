import type { KeptWork } from '../../../src/app/autosave/kept-work.ts';

/** A work with one plan whose text is as told. */
export function workMade(id: string, text: string, { at = 0, saved = false } = {}): KeptWork {
  return { id, at, shown: 'sheet', demo: false, plans: [{ id: 'sheet', name: id, text, saved }], files: [] };
}
