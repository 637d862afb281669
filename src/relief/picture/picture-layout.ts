import { refuse } from '../../terrain/bytes/file-refusal.ts';
import { compressionName, isReadable, LERC } from '../../terrain/codec/block-codec.ts';
import { type RasterLayout, readLayout } from '../../terrain/tiff/raster-layout.ts';
import type { TagValues } from '../../terrain/tiff/tag-values.ts';
import { TAG } from '../../terrain/tiff/tiff-tags.ts';

/** How the stored samples of a picture become colours. */
export interface ColourRule {
  readonly kind: 'grey' | 'grey-inverted' | 'rgb' | 'palette' | 'decoded';
  /** Red, green and blue of each palette entry, 0 to 255; empty without a palette. */
  readonly palette: Uint8Array;
  /** Which sample holds the opacity; null when there is none. */
  readonly alpha: number | null;
  /** A pixel whose colour samples all have this value is not part of the picture. */
  readonly noData: number | null;
}

export interface PictureLayout {
  readonly raster: RasterLayout;
  readonly colours: ColourRule;
  /** Tables shared by all JPEG blocks; null when each block is complete. */
  readonly jpegTables: Uint8Array | null;
  /** JPEG blocks that hold red, green, blue as they are. */
  readonly jpegIsRgb: boolean;
}

export const JPEG = 7;
const PHOTOMETRIC = { whiteIsZero: 0, blackIsZero: 1, rgb: 2, palette: 3, yCbCr: 6 } as const;
const COLOUR_MAP = 320;
const JPEG_TABLES = 347;
/** Opacity among the extra samples. Source: TIFF 6.0, Adobe, 1992, section 18. */
const ASSOCIATED = 1;
const UNASSOCIATED = 2;

/** Reads how a directory stores its picture, or refuses by name what cannot be shown. */
export async function readPictureLayout(tags: TagValues): Promise<PictureLayout> {
  const raster = await readLayout(tags);
  checkPicture(raster);
  const photometric = await tags.number(TAG.PhotometricInterpretation, PHOTOMETRIC.blackIsZero);
  const colours = await readColours(tags, raster, photometric);
  const tables = raster.compression === JPEG ? await tags.numbers(JPEG_TABLES) : undefined;
  return {
    raster,
    colours,
    jpegTables: tables ? Uint8Array.from(tables) : null,
    jpegIsRgb: photometric === PHOTOMETRIC.rgb,
  };
}

const MOST_BLOCK_BYTES = 64 * 2 ** 20;

/** Refuses blocks that would not fit the memory once unpacked. */
export function checkBlockSize({ blockColumns, blockRows, samples, bits }: RasterLayout): void {
  const bytes = (blockColumns * blockRows * samples * bits) / 8;
  if (bytes <= MOST_BLOCK_BYTES) return;
  const expected = `blocks of at most ${MOST_BLOCK_BYTES} bytes; rewrite the file in tiles`;
  refuse({ code: 'block-size', where: 'TileWidth', found: `blocks of ${bytes} bytes`, expected });
}

function checkPicture(raster: RasterLayout): void {
  const { bits, kind, compression, predictor } = raster;
  if (bits !== 8 || kind !== 'uint') {
    refuse({
      code: 'picture-samples',
      where: 'BitsPerSample',
      found: `${bits}-bit ${kind}`,
      expected: '8-bit colours',
    });
  }
  if (compression !== JPEG && (!isReadable(compression) || compression === LERC)) {
    refuse({
      code: 'compression',
      where: 'Compression',
      found: compressionName(compression),
      expected: 'none, LZW, DEFLATE, PackBits, ZSTD or JPEG',
    });
  }
  if (predictor !== 1 && predictor !== 2) {
    refuse({ code: 'predictor', where: 'Predictor', found: predictor, expected: '1 or 2' });
  }
  checkBlockSize(raster);
}

async function readColours(tags: TagValues, raster: RasterLayout, photometric: number): Promise<ColourRule> {
  const kind = colourKind(raster, photometric);
  const palette = kind === 'palette' ? paletteOf((await tags.numbers(COLOUR_MAP)) ?? []) : new Uint8Array(0);
  const extra = (await tags.numbers(TAG.ExtraSamples)) ?? [];
  const at = extra.findIndex((meaning) => meaning === ASSOCIATED || meaning === UNASSOCIATED);
  const alpha = at < 0 || kind === 'decoded' ? null : raster.samples - extra.length + at;
  const stated = Number.parseFloat((await tags.text(TAG.GdalNoData)) ?? '');
  const noData =
    Number.isInteger(stated) && stated >= 0 && stated <= 255 && raster.compression !== JPEG ? stated : null;
  return { kind, palette, alpha, noData };
}

function colourKind(raster: RasterLayout, photometric: number): ColourRule['kind'] {
  if (raster.compression === JPEG && (raster.samples === 3 || raster.samples === 1) && !raster.separate)
    return 'decoded';
  if (photometric === PHOTOMETRIC.palette) return 'palette';
  if (photometric === PHOTOMETRIC.rgb && raster.samples >= 3) return 'rgb';
  if (photometric === PHOTOMETRIC.blackIsZero) return raster.samples >= 3 ? 'rgb' : 'grey';
  if (photometric === PHOTOMETRIC.whiteIsZero) return 'grey-inverted';
  return refuse({
    code: 'picture-colours',
    where: 'PhotometricInterpretation',
    found: `${photometric} with ${raster.samples} samples a pixel`,
    expected: 'grey, red-green-blue, a palette, or JPEG',
  });
}

/** A colour map holds all reds, then all greens, then all blues, 16 bits each. */
function paletteOf(map: readonly number[]): Uint8Array {
  const size = map.length / 3;
  const palette = new Uint8Array(map.length);
  for (let at = 0; at < size; at += 1) {
    for (let channel = 0; channel < 3; channel += 1) palette[3 * at + channel] = (map[channel * size + at] ?? 0) >> 8;
  }
  return palette;
}
