import { refuse } from '../../terrain/bytes/file-refusal.ts';

/** The files of one picture by what they are for. */
export interface PictureParts<File> {
  readonly picture: File;
  readonly kind: 'tiff' | 'plain';
  readonly world: File | null;
  /** A projection as text, or the metadata that GDAL writes beside a picture. */
  readonly crs: File | null;
}

const TIFF = /\.tiff?$/i;
const PLAIN = /\.(?:jpe?g|png)$/i;
/** First and last letter of the picture's ending and a w, the whole ending and a w, or `wld`. */
const WORLD = /\.(?:jgw|jpgw|jpegw|pgw|pngw|tfw|tifw|tiffw|wld)$/i;
const CRS = /\.(?:prj|aux\.xml)$/i;

/** Whether a file is a picture itself and no companion of one. */
export function isPictureName(name: string): boolean {
  return TIFF.test(name) || PLAIN.test(name);
}

/** Sorts the files of one picture; what is missing, twice there or of another picture is refused in words. */
export function pictureParts<File extends { readonly name: string }>(files: readonly File[]): PictureParts<File> {
  const pictures = files.filter(({ name }) => isPictureName(name));
  const worlds = files.filter(({ name }) => WORLD.test(name));
  const others = files.filter(({ name }) => CRS.test(name));
  const [picture] = pictures;
  const [world = null] = worlds;
  checkNumber(pictures, 'one picture at a time');
  checkNumber(worlds, 'one world file');
  checkStrangers(files, [...pictures, ...worlds, ...others]);
  if (picture === undefined) return missingPicture(world ?? others[0]);
  const kind = PLAIN.test(picture.name) ? 'plain' : 'tiff';
  if (world === null && kind === 'plain') missingWorld(picture.name);
  for (const each of [world, ...others]) if (each) checkStem(picture.name, each.name);
  // A projection file is written for its picture; the metadata may hold statistics only.
  const crs = others.find(({ name }) => /\.prj$/i.test(name)) ?? others[0] ?? null;
  return { picture, kind, world, crs };
}

function checkNumber(files: readonly { readonly name: string }[], expected: string): void {
  if (files.length <= 1) return;
  refuse({ code: 'picture-files', where: '', found: files.map(({ name }) => name).join(', '), expected });
}

function checkStrangers<File extends { readonly name: string }>(all: readonly File[], known: readonly File[]): void {
  const stranger = all.find((file) => !known.includes(file));
  if (stranger === undefined) return;
  const expected = 'a TIFF, JPEG or PNG, its world file, its .prj or .aux.xml';
  refuse({ code: 'picture-files', where: '', found: stranger.name, expected });
}

function missingPicture(companion: { readonly name: string } | undefined): never {
  const found = companion?.name ?? 'no file';
  return refuse({ code: 'picture-half', where: found, found, expected: `the picture that ${found} belongs to` });
}

function missingWorld(name: string): never {
  const stem = stemOf(name);
  const short = /\.png$/i.test(name) ? 'pgw' : 'jgw';
  const expected = `its world file, ${stem}.${short} or ${stem}.wld`;
  return refuse({ code: 'picture-half', where: name, found: 'only the picture', expected });
}

/** `photo.jpg`, `photo.jgw`, `photo.jpg.aux.xml` and `photo.prj` belong together. */
function checkStem(picture: string, companion: string): void {
  if (stemOf(picture) === stemOf(companion) || `${picture}.aux.xml`.toLowerCase() === companion.toLowerCase()) return;
  const expected = `a companion of ${picture}, named like it`;
  refuse({ code: 'picture-files', where: '', found: companion, expected });
}

function stemOf(name: string): string {
  return name.replace(/(?:\.aux\.xml|\.[^.]*)$/i, '').toLowerCase();
}
