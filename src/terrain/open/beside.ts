import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { crsBeside } from '../georeference/crs-beside.ts';
import { readWorldFile } from '../georeference/world-file.ts';
import type { Affine, CrsReference } from '../grid/grid.ts';

/** Files that lie beside an elevation file and say what it does not. */
export interface Beside {
  readonly world?: ByteSource;
  readonly crs?: ByteSource;
  readonly mask?: ByteSource;
}

const KINDS: readonly (readonly [kind: keyof Beside, pattern: RegExp])[] = [
  ['mask', /\.msk$/i],
  ['world', /\.(?:tfw|tifw|tiffw|wld|asw|ascw)$/i],
  ['crs', /\.(?:prj|aux\.xml)$/i],
];

const kindOf = (name: string): keyof Beside | null => KINDS.find(([, pattern]) => pattern.test(name))?.[0] ?? null;

/** `dem.tif`, `dem.tif.msk`, `dem.tfw`, `dem.prj` and `dem.tif.aux.xml` belong together. */
const stemOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/\.(?:msk|aux\.xml)$/, '')
    .replace(/\.[^.]*$/, '');

/** Sorts what lies beside elevation files to them; what belongs to none is refused. */
export function withBeside<S extends { readonly name: string }>(
  files: readonly S[],
): { readonly file: S; readonly beside: Partial<Record<keyof Beside, S>> }[] {
  const heights = files.filter(({ name }) => kindOf(name) === null);
  const sorted = heights.map((file) => ({ file, beside: {} as Partial<Record<keyof Beside, S>> }));
  for (const file of files) {
    const kind = kindOf(file.name);
    if (kind === null) continue;
    const own = sorted.find((each) => stemOf(each.file.name) === stemOf(file.name));
    if (own === undefined) {
      refuse({ code: 'beside', where: file.name, found: file.name, expected: 'the elevation file that it belongs to' });
    } else own.beside[kind] = own.beside[kind] ?? file;
  }
  return sorted;
}

const MOST_TEXT = 1024 * 1024;

async function textOf(source: ByteSource): Promise<string> {
  const [bytes = new Uint8Array(0)] = await source.read([{ offset: 0, length: Math.min(source.size, MOST_TEXT) }]);
  let text = '';
  for (let i = 0; i < bytes.length; i += 4096) text += String.fromCharCode(...bytes.subarray(i, i + 4096));
  return text;
}

/** The CRS that a projection file beside states; null where there is none, or none in it. */
export async function statedBeside({ crs }: Beside): Promise<CrsReference | null> {
  return crs === undefined ? null : crsBeside(crs.name, await textOf(crs));
}

/** Where a world file beside puts the cells; null where there is none. */
export async function affineBeside({ world }: Beside): Promise<Affine | null> {
  return world === undefined ? null : readWorldFile(await textOf(world));
}
