import { importFault } from './import-fault.ts';

const DECLARED = /^<\?xml[^>]{0,200}?encoding\s*=\s*["']([A-Za-z0-9._-]{1,40})["']/;
/** Encodings that an XML declaration may name besides UTF-8; all of them are supersets of ASCII. */
const KNOWN: ReadonlySet<string> = new Set(['iso-8859-1', 'iso-8859-15', 'windows-1252', 'us-ascii', 'utf-8']);

/**
 * The text of a file: UTF-8, UTF-16 with its byte order mark, or the encoding that an XML declaration names.
 *
 * Nothing is guessed: bytes that do not fit are refused, not replaced.
 */
export function textOfBytes(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return decoded(bytes, 'utf-16le');
  if (first === 0xfe && second === 0xff) return decoded(bytes, 'utf-16be');
  const declared = declaredEncoding(bytes) ?? 'utf-8';
  if (!KNOWN.has(declared)) {
    importFault('wrong-encoding', '', `the encoding ${declared}`, 'UTF-8, UTF-16 with its mark, or Latin-1');
  }
  return decoded(bytes, declared);
}

function declaredEncoding(bytes: Uint8Array): string | null {
  const head = String.fromCharCode(...bytes.subarray(0, 256)).replace(/^\u00ef\u00bb\u00bf/, '');
  return DECLARED.exec(head)?.[1]?.toLowerCase() ?? null;
}

function decoded(bytes: Uint8Array, encoding: string): string {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return importFault(
      'wrong-encoding',
      '',
      `bytes that are not ${encoding.toUpperCase()}`,
      'a text file, best in UTF-8',
    );
  }
}
