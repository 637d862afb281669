import type { ByteSource } from '../bytes/byte-source.ts';
import type { ComputableCrs } from '../georeference/computable-crs.ts';
import type { FileAffine } from '../georeference/file-affine.ts';
import type { GeoKeys } from '../georeference/geo-keys.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import type { TiffImages } from '../tiff/tiff-images.ts';
import type { HeightMeaning } from './height-meaning.ts';

/** All that the directories of a file say, before any cell is read. */
export interface GeoTiffHead {
  readonly source: ByteSource;
  readonly images: TiffImages;
  readonly layout: RasterLayout;
  readonly keys: GeoKeys;
  readonly place: FileAffine;
  readonly crs: ComputableCrs;
  readonly band: number;
  readonly meaning: HeightMeaning;
}
