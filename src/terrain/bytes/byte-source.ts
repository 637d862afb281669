/** A run of bytes of a file. */
export interface ByteSlice {
  readonly offset: number;
  readonly length: number;
}

/**
 * Somewhere to read bytes from: a file on disk, a file dropped on the page, an address.
 *
 * `read` answers one array a slice, each exactly as long as asked for, or rejects: it never answers fewer bytes.
 */
export interface ByteSource {
  readonly name: string;
  readonly size: number;
  read(slices: readonly ByteSlice[], signal?: AbortSignal): Promise<readonly Uint8Array[]>;
}
