import { refuse } from '../bytes/file-refusal.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** Numbers of the GeoKeys the reader looks at. Source: OGC GeoTIFF 1.1 (19-008r4) and its predecessor, GeoTIFF 1.0. */
export const KEY = {
  ModelType: 1024,
  RasterType: 1025,
  Citation: 1026,
  GeodeticCrs: 2048,
  GeodeticCitation: 2049,
  GeodeticDatum: 2050,
  PrimeMeridian: 2051,
  GeogLinearUnits: 2052,
  AngularUnits: 2054,
  Ellipsoid: 2056,
  SemiMajorAxis: 2057,
  SemiMinorAxis: 2058,
  InverseFlattening: 2059,
  PrimeMeridianLongitude: 2061,
  ToWgs84: 2062,
  ProjectedCrs: 3072,
  ProjectedCitation: 3073,
  Projection: 3074,
  ProjectionMethod: 3075,
  LinearUnits: 3076,
  LinearUnitSize: 3077,
  StdParallel1: 3078,
  StdParallel2: 3079,
  NatOriginLon: 3080,
  NatOriginLat: 3081,
  FalseEasting: 3082,
  FalseNorthing: 3083,
  FalseOriginLon: 3084,
  FalseOriginLat: 3085,
  FalseOriginEasting: 3086,
  FalseOriginNorthing: 3087,
  CenterLon: 3088,
  CenterLat: 3089,
  CenterEasting: 3090,
  CenterNorthing: 3091,
  ScaleAtNatOrigin: 3092,
  ScaleAtCenter: 3093,
  AzimuthAngle: 3094,
  StraightVertPoleLon: 3095,
  VerticalCrs: 4096,
  VerticalCitation: 4097,
  VerticalDatum: 4098,
  VerticalUnits: 4099,
} as const;

export const USER_DEFINED = 32767;

const NAMES = new Map<number, string>(Object.entries(KEY).map(([name, key]) => [key, name]));

export function keyName(key: number): string {
  return NAMES.get(key) ?? `key ${key}`;
}

/** The three tags of the keys as a file writes them. */
export interface WrittenGeoKeys {
  readonly directory: readonly number[];
  readonly doubles: readonly number[];
  readonly ascii: string;
}

/** The GeoKeys of a file, each with its numbers or its text. */
export class GeoKeys {
  readonly #numbers: ReadonlyMap<number, readonly number[]>;
  readonly #texts: ReadonlyMap<number, string>;
  /** Null in a file without keys. */
  readonly written: WrittenGeoKeys | null;

  constructor(
    numbers: ReadonlyMap<number, readonly number[]>,
    texts: ReadonlyMap<number, string>,
    written: WrittenGeoKeys | null = null,
  ) {
    this.#numbers = numbers;
    this.#texts = texts;
    this.written = written;
  }

  /** The first number of a key; undefined where the key is absent. */
  number(key: number): number | undefined {
    return this.#numbers.get(key)?.[0];
  }

  numbers(key: number): readonly number[] | undefined {
    return this.#numbers.get(key);
  }

  /** A code of a registry: absent, 0 and `user-defined` all say that there is none. */
  code(key: number): number | undefined {
    const value = this.number(key);
    return value === undefined || value === 0 || value === USER_DEFINED ? undefined : value;
  }

  text(key: number): string | undefined {
    return this.#texts.get(key);
  }
}

export async function readGeoKeys(tags: TagValues): Promise<GeoKeys> {
  const directory = await tags.numbers(TAG.GeoKeyDirectory);
  const numbers = new Map<number, readonly number[]>();
  const texts = new Map<number, string>();
  if (directory === undefined) return new GeoKeys(numbers, texts);
  const doubles = (await tags.numbers(TAG.GeoDoubleParams)) ?? [];
  const ascii = (await tags.text(TAG.GeoAsciiParams)) ?? '';
  const count = directory[3] ?? 0;
  if (directory.length < 4 + 4 * count) {
    refuse({
      code: 'geo-keys',
      where: 'GeoKeyDirectory',
      found: `${directory.length} numbers`,
      expected: `${4 + 4 * count} for ${count} keys`,
    });
  }
  for (let i = 4; i < 4 + 4 * count; i += 4) {
    const [key = 0, place = 0, length = 0, value = 0] = directory.slice(i, i + 4);
    if (place === 0) numbers.set(key, [value]);
    else if (place === TAG.GeoDoubleParams) numbers.set(key, partOf(doubles, key, value, length));
    else if (place === TAG.GeoAsciiParams) texts.set(key, ascii.slice(value, value + length).replace(/\|$/, ''));
    else if (place === TAG.GeoKeyDirectory) numbers.set(key, partOf(directory, key, value, length));
  }
  return new GeoKeys(numbers, texts, { directory, doubles, ascii });
}

function partOf(values: readonly number[], key: number, from: number, length: number): readonly number[] {
  if (length >= 1 && from + length <= values.length) return values.slice(from, from + length);
  return refuse({
    code: 'geo-keys',
    where: keyName(key),
    found: `values ${from} to ${from + length - 1}`,
    expected: `a place among ${values.length} values`,
  });
}
