/** What a folder of `src` may import: folders of lower floors, packages, and whether data files; and its rooms. */
export interface Floor {
  readonly level: number;
  readonly folders: readonly string[];
  readonly packages: readonly string[];
  readonly data: boolean;
  /**
   * Folders inside it, the lowest first: a room imports only itself and rooms named before it. `.` are the files that lie in the
   * floor's own folder; a floor without this list has no other.
   */
  readonly rooms?: readonly string[];
}

const below = ['units', 'geodesy', 'handbook', 'terrain', 'hydraulics', 'plan', 'ram', 'evaluation'];

function floor(
  level: number,
  folders: readonly string[],
  {
    packages = [],
    data = false,
    rooms = ['.'],
  }: { packages?: readonly string[]; data?: boolean; rooms?: readonly string[] } = {},
): Floor {
  return { level, folders, packages, data, rooms };
}

/** The floors of the program. A new folder, a new room or a new dependency of a folder is one visible line here. */
export const declaredFloors: Readonly<Record<string, Floor>> = {
  units: floor(0, []),
  geodesy: floor(1, ['units'], { packages: ['geographiclib-geodesic', 'proj4'], data: true }),
  handbook: floor(1, ['units'], { data: true }),
  terrain: floor(2, ['units', 'geodesy'], {
    // `geotiff` writes files; reading is our own (docs/elevation-files.md says why).
    packages: ['fflate', 'proj4', 'geotiff'],
    data: true,
    rooms: ['bytes', 'codec', 'grid', 'tiff', 'georeference', 'open', 'accuracy', 'ground', 'clip'],
  }),
  hydraulics: floor(2, ['units']),
  plan: floor(3, ['units', 'geodesy', 'handbook'], {
    // `@turf/turf` simplifies imported tracks; `saxes` reads XML; `fflate` packs links.
    packages: ['zod', 'saxes', '@turf/turf', 'fflate'],
    rooms: ['model', 'check', 'file', 'edits', 'exchange'],
  }),
  ram: floor(3, ['units', 'hydraulics'], { rooms: ['cycle', 'transient'] }),
  evaluation: floor(4, ['units', 'geodesy', 'handbook', 'terrain', 'hydraulics', 'plan', 'ram'], {
    rooms: ['statistics', 'site', 'model', 'spread', 'result', 'findings', 'evaluate', 'mending'],
  }),
  siting: floor(5, below, { rooms: ['search', 'lines', 'fields', 'valley', 'reach', 'places', 'systems'] }),
  diagnosis: floor(5, below, { rooms: ['model', 'ranking', '.', 'words'] }),
  report: floor(5, ['units', 'geodesy', 'handbook', 'terrain', 'plan', 'evaluation'], {
    // `fflate` and `zod` for the file that is taken along; `lean-qr` for the code on paper.
    packages: ['fflate', 'zod', 'lean-qr'],
    rooms: [
      'words',
      'figure',
      'findings',
      'glossary',
      'tables',
      'plan-map',
      'profile',
      'compare',
      'print',
      'upkeep',
      'exchange',
    ],
  }),
  relief: floor(5, ['units', 'geodesy', 'terrain'], {
    packages: ['@maplibre/vt-pbf'],
    rooms: ['levels', 'tiles', 'picture'],
  }),
  worker: floor(6, ['units', 'geodesy', 'terrain', 'plan', 'ram', 'evaluation', 'relief', 'siting', 'diagnosis']),
  app: floor(7, [...below, 'siting', 'diagnosis', 'report', 'relief', 'worker'], {
    // `geojson` is types only.
    packages: [
      'preact',
      '@preact/signals',
      'maplibre-gl',
      'terra-draw',
      'terra-draw-maplibre-gl-adapter',
      '@turf/turf',
      'geojson',
    ],
    data: true,
    rooms: [
      'style',
      'offline/worker',
      'offline',
      'client',
      'state',
      'actions',
      'autosave',
      'files',
      'map',
      'panels/fields',
      'panels/trouble',
      'panels/site',
      'panels/profile',
      'panels/answer',
      'panels/selected',
      'panels/inputs',
      'panels/print',
      'panels/alternatives',
      'panels/jobs',
      'panels/files',
      'panels/kept',
      'panels/map',
      'panels/help',
      'panels/frame',
      '.',
    ],
  }),
  cli: floor(7, [...below, 'siting', 'diagnosis', 'report'], {
    packages: ['node', 'zod'],
    rooms: ['input', 'commands', '.'],
  }),
};
