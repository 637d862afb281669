import type { ByteSource } from './byte-source.ts';
import type { ComputableCrs } from './computable-crs.ts';
import type { FileAffine } from './file-affine.ts';
import type { GeoKeys } from './geo-keys.ts';
import type { HeightMeaning } from './height-meaning.ts';
import type { RasterLayout } from './raster-layout.ts';
import type { TiffImages } from './tiff-images.ts';

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
