import type { TerrainAbout } from '../../terrain/grid/ground.ts';
import type { TerrainNote } from '../../terrain/grid/terrain-note.ts';
import { terrainNoteSentence } from '../words/terrain-note-words.ts';

/** What the heights of an answer rest on, as the command line's JSON answers hold it. */
export function terrainJson(about: TerrainAbout, notes: readonly TerrainNote[]): unknown {
  return {
    files: about.files,
    crs: about.crs,
    vertical: about.verticalDatum,
    unit: about.verticalUnit,
    accuracy: about.accuracy.id,
    notes: notes.map((note) => ({ code: note.code, ...note.data, text: terrainNoteSentence(note, 'metric') })),
  };
}
