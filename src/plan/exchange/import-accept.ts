/** Endings of files with points and tracks, for the `accept` attribute of a file input. */
export const importAccept = '.gpx,.kml,.geojson,.json,.csv,.tsv,.txt';
