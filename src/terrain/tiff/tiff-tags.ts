/** Numbers of the TIFF tags the reader looks at. Sources: TIFF 6.0, Adobe, 1992; OGC GeoTIFF 1.1 (19-008r4); GDAL's GeoTIFF driver page. */
export const TAG = {
  NewSubfileType: 254,
  ImageWidth: 256,
  ImageLength: 257,
  BitsPerSample: 258,
  Compression: 259,
  PhotometricInterpretation: 262,
  FillOrder: 266,
  StripOffsets: 273,
  Orientation: 274,
  SamplesPerPixel: 277,
  RowsPerStrip: 278,
  StripByteCounts: 279,
  PlanarConfiguration: 284,
  Predictor: 317,
  TileWidth: 322,
  TileLength: 323,
  TileOffsets: 324,
  TileByteCounts: 325,
  ExtraSamples: 338,
  SampleFormat: 339,
  ModelPixelScale: 33550,
  ModelTiepoint: 33922,
  ModelTransformation: 34264,
  GeoKeyDirectory: 34735,
  GeoDoubleParams: 34736,
  GeoAsciiParams: 34737,
  GdalMetadata: 42112,
  GdalNoData: 42113,
  LercParameters: 50674,
} as const;

const NAMES = new Map<number, string>(Object.entries(TAG).map(([name, tag]) => [tag, name]));

export function tagName(tag: number): string {
  return NAMES.get(tag) ?? `tag ${tag}`;
}
