import type { GridFlaw } from './grid.ts';

/**
 * Everything a terrain or a line over it may have to tell the user, as codes; words are the report's. Data of each:
 *
 * accuracy-inferred {class, because} · surface-model · surface-unknown · height-steps {step_m} · cells-flatten {cell_m} ·
 * several-files {files} · datum-unstated {files} · seam {from, to, crossings, at_m, step_m?} ·
 * datum-shift {file, shift, accuracy_m} · datum-shift-unknown {file, shift} · outside-crs-area {file, crs, lon, lat} ·
 * coarse-samples {step_m, wanted_m} · vertical-unit-assumed {file, unit, slope, slope_in_feet} ·
 * no-data-unreachable {stated} · other-pages {count} · odd-heights {file, count, first} · broken-blocks {file, count, first} ·
 * answer-not-taken {file, about, answered, stated}
 */
export const terrainNoteCodes = [
  'accuracy-inferred',
  'surface-model',
  'surface-unknown',
  'height-steps',
  'cells-flatten',
  'several-files',
  'datum-unstated',
  'seam',
  'datum-shift',
  'datum-shift-unknown',
  'outside-crs-area',
  'coarse-samples',
  'vertical-unit-assumed',
  'no-data-unreachable',
  'other-pages',
  'odd-heights',
  'broken-blocks',
  'answer-not-taken',
] as const;

export type TerrainNoteCode = (typeof terrainNoteCodes)[number];

export interface TerrainNote {
  readonly code: TerrainNoteCode;
  readonly data: Readonly<Record<string, string | number>>;
}

/** What made holes, as a note. */
export function flawNote({ code, file, count, first }: GridFlaw): TerrainNote {
  return { code, data: { file, count, first } };
}
