import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { ByteSource } from '../../src/terrain/bytes/byte-source.ts';

/** What GDAL decoded from a fixture: see fixtures/README.md. */
export interface DecodedFixture {
  readonly gdal: string;
  readonly values: string;
  readonly geotransform: readonly number[];
  readonly scale: number;
  readonly offset: number;
  readonly overviews: number;
  readonly answers?: { readonly band: number };
  readonly half?: readonly number[];
}

interface Decoded {
  readonly side_of_large: number;
  /** Digests of the larger files' values as little-endian 32-bit floating point. */
  readonly sha256_of_float32: Readonly<Record<string, string>>;
  readonly columns: number;
  readonly rows: number;
  readonly files: Readonly<Record<string, DecodedFixture>>;
  readonly arrays: Readonly<Record<string, readonly (number | null)[]>>;
}

const FOLDER = fileURLToPath(new URL('./fixtures/', import.meta.url));

export const decoded: Decoded = JSON.parse(readFileSync(`${FOLDER}decoded-by-gdal.json`, 'utf8'));

export function fixtureBytes(name: string): Uint8Array {
  return new Uint8Array(readFileSync(`${FOLDER}${name}.tif`));
}

/** Bytes in memory as a source that counts what is read from it. */
export interface CountingSource extends ByteSource {
  readonly read: ByteSource['read'];
  bytesRead: number;
  reads: number;
}

export function sourceOf(name: string, bytes: Uint8Array): CountingSource {
  const source: CountingSource = {
    name,
    size: bytes.length,
    bytesRead: 0,
    reads: 0,
    read: async (slices) => {
      source.reads++;
      return slices.map(({ offset, length }) => {
        if (offset < 0 || offset + length > bytes.length) throw new Error(`read outside ${name}`);
        source.bytesRead += length;
        return bytes.slice(offset, offset + length);
      });
    },
  };
  return source;
}

export function fixtureSource(name: string): CountingSource {
  return sourceOf(`${name}.tif`, fixtureBytes(name));
}
