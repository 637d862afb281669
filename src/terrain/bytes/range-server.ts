/** A run of bytes of a file, both ends included, as HTTP counts them. */
export interface ByteRange {
  readonly first: number;
  readonly last: number;
}

/** What a server answered to a request for a range. Source: RFC 9110, sections 14 and 15.3.7. */
export interface RangeReply {
  /** 206 where the server sent the range; with any other status no bytes are read. */
  readonly status: number;
  /** Where the part begins, as the server says; null where it does not let that be seen. */
  readonly first: number | null;
  /** Size of the whole file; null where the server does not let it be seen. */
  readonly size: number | null;
  /** What tells one version of the file from another; null where the server does not say. */
  readonly version: string | null;
  readonly bytes: Uint8Array;
}

/** Asks for a range of the file at an address; rejects where nobody answers. */
export type AskRange = (address: string, range: ByteRange, signal?: AbortSignal) => Promise<RangeReply>;

/** The headers of a reply, as far as they matter here. */
export interface ReplyHeaders {
  get(name: string): string | null;
}

/** Where the part begins and how large the whole file is, from `Content-Range: bytes 0-99/12345`; the size may be `*`. */
export function readContentRange(text: string | null): Pick<RangeReply, 'first' | 'size'> {
  const match = /^bytes (\d+)-\d+\/(\d+|\*)$/.exec(text ?? '');
  return { first: wholeNumber(match?.[1]), size: wholeNumber(match?.[2]) };
}

function wholeNumber(text: string | undefined): number | null {
  const value = Number(text ?? Number.NaN);
  return Number.isSafeInteger(value) ? value : null;
}

/** A strong tag, else the time of the last change. A weak tag promises too little to put ranges together. */
export function versionFrom(headers: ReplyHeaders): string | null {
  const tag = headers.get('etag');
  return tag !== null && !tag.startsWith('W/') ? tag : headers.get('last-modified');
}
