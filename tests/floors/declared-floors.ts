/** What a folder of `src` may import: folders of lower floors, packages, and whether data files. */
export interface Floor {
  readonly level: number;
  readonly folders: readonly string[];
  readonly packages: readonly string[];
  readonly data: boolean;
}

const below = ['units', 'geodesy', 'handbook', 'terrain', 'hydraulics', 'plan', 'ram', 'evaluation'];

function floor(level: number, folders: readonly string[], packages: readonly string[] = [], data = false): Floor {
  return { level, folders, packages, data };
}

/** The floors of the program. A new folder or a new dependency of a folder is one visible line here. */
export const declaredFloors: Readonly<Record<string, Floor>> = {
  units: floor(0, []),
  geodesy: floor(1, ['units'], ['geographiclib-geodesic', 'proj4'], true),
  handbook: floor(1, ['units'], [], true),
  terrain: floor(2, ['units', 'geodesy'], ['proj4'], true),
  hydraulics: floor(2, ['units']),
  // `@turf/turf` simplifies imported tracks; `saxes` reads XML.
  plan: floor(3, ['units', 'geodesy', 'handbook'], ['zod', 'saxes', '@turf/turf']),
  ram: floor(3, ['units', 'hydraulics']),
  evaluation: floor(4, ['units', 'geodesy', 'handbook', 'terrain', 'hydraulics', 'plan', 'ram']),
  siting: floor(5, below),
  diagnosis: floor(5, below),
  report: floor(5, ['units', 'geodesy', 'handbook', 'terrain', 'plan', 'evaluation']),
  relief: floor(5, ['units', 'geodesy', 'terrain'], ['@maplibre/vt-pbf']),
  worker: floor(6, ['units', 'geodesy', 'terrain', 'plan', 'evaluation', 'relief', 'siting']),
  app: floor(
    7,
    [...below, 'siting', 'diagnosis', 'report', 'relief', 'worker'],
    // `geojson` is types only.
    [
      'preact',
      '@preact/signals',
      'maplibre-gl',
      'terra-draw',
      'terra-draw-maplibre-gl-adapter',
      '@turf/turf',
      'geojson',
    ],
    true,
  ),
  cli: floor(7, [...below, 'siting', 'diagnosis', 'report'], ['node', 'zod']),
};
