/**
 * Everything a terrain or a line over it may have to tell the user, as codes; words are the report's. Data of each:
 *
 * accuracy-inferred {class, because} · surface-model · surface-unknown · height-steps {step_m} · cells-flatten {cell_m} ·
 * several-files {files} · datum-unstated {files} · seam {from, to, crossings, at_m, step_m?} ·
 * datum-shift {file, shift, accuracy_m} · datum-shift-unknown {file, shift} · outside-crs-area {file, crs, lon, lat} ·
 * coarse-samples {step_m, wanted_m} · vertical-unit-assumed {unit} ·
 * no-data-unreachable {stated} · other-pages {count}
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
] as const;

export type TerrainNoteCode = (typeof terrainNoteCodes)[number];

export interface TerrainNote {
  readonly code: TerrainNoteCode;
  readonly data: Readonly<Record<string, string | number>>;
}
