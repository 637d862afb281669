import { refuse } from '../bytes/file-refusal.ts';

/** A format that is not read, told from the first bytes of a file, and how to make one that is. */
interface NamedFormat {
  readonly name: string;
  /** Whether the bytes, or their first letters as text, are such a file's. */
  readonly is: (bytes: Uint8Array, text: string) => boolean;
  readonly wayOut?: string;
}

const starts =
  (...signature: readonly number[]) =>
  (bytes: Uint8Array): boolean =>
    signature.every((byte, i) => bytes[i] === byte);
const says = (pattern: RegExp) => (_: Uint8Array, text: string) => pattern.test(text);

const EXPORT = 'a GeoTIFF: export it as one';
const UNPACK = 'the file inside it: unpack it first';

/** Signatures of formats as their own documents state them; from memory where nothing else is said. */
const FORMATS: readonly NamedFormat[] = [
  { name: 'a JPEG 2000', is: starts(0, 0, 0, 0x0c, 0x6a, 0x50, 0x20, 0x20) },
  { name: 'a JPEG 2000', is: starts(0xff, 0x4f, 0xff, 0x51) },
  { name: 'a JPEG picture', is: starts(0xff, 0xd8, 0xff), wayOut: 'elevations: open it as a picture' },
  { name: 'a PNG picture', is: starts(0x89, 0x50, 0x4e, 0x47), wayOut: 'elevations: open it as a picture' },
  { name: 'an HDF5 or netCDF-4 file', is: starts(0x89, 0x48, 0x44, 0x46) },
  { name: 'an HDF4 file', is: starts(0x0e, 0x03, 0x13, 0x01) },
  { name: 'a netCDF file', is: starts(0x43, 0x44, 0x46) },
  { name: 'an Erdas Imagine file', is: says(/^EHFA_HEADER_TAG/) },
  { name: 'a GeoPackage or another SQLite file', is: says(/^SQLite format 3/) },
  { name: 'a cloud of lidar points', is: says(/^LASF/), wayOut: 'a ground model in cells: make one of its points' },
  { name: 'a GDAL virtual raster', is: says(/^\s*<VRTDataset/), wayOut: 'a GeoTIFF: translate it into one' },
  { name: 'a Surfer grid', is: says(/^DS(AA|BB|RB)/) },
  { name: 'a GRIB file', is: says(/^GRIB/) },
  { name: 'a PDF', is: says(/^%PDF/), wayOut: 'elevations' },
  { name: 'a web page', is: says(/^\s*<(!doctype html|html)/i), wayOut: 'the file itself: the download gave a page' },
  { name: 'a gzip archive', is: starts(0x1f, 0x8b), wayOut: UNPACK },
  { name: 'a 7z archive', is: starts(0x37, 0x7a, 0xbc, 0xaf), wayOut: UNPACK },
  { name: 'a rar archive', is: says(/^Rar!/), wayOut: UNPACK },
  { name: 'an xz archive', is: starts(0xfd, 0x37, 0x7a, 0x58), wayOut: UNPACK },
  { name: 'a bzip2 archive', is: says(/^BZh/), wayOut: UNPACK },
];

/** Refuses a file of a format that is known and not read, by its name and with the way out. */
export function refuseNamedFormat(head: Uint8Array): void {
  const text = String.fromCharCode(...head.subarray(0, 64));
  const format = FORMATS.find(({ is }) => is(head, text));
  if (format === undefined) return;
  const { name, wayOut = EXPORT } = format;
  refuse({ code: 'other-format', where: '', found: name, expected: wayOut });
}
