/** How a coordinate reference system was stated: a code of the EPSG registry, or a proj string built from a file's own keys. */
export type CrsReference =
  | { readonly kind: 'epsg'; readonly code: number }
  | { readonly kind: 'proj'; readonly definition: string; readonly title: string };
