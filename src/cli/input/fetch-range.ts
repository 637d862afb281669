import { type AskRange, readContentRange, versionFrom } from '../../terrain/bytes/range-server.ts';

/** How long and how much of a server is borne. */
export interface FetchLimits {
  /** Silence after which a request is given up, ms. */
  readonly silence: number;
  /** Waiting for servers in all, ms. */
  readonly waiting: number;
  /** Bytes fetched in all. */
  readonly bytes: number;
}

export const FETCH_LIMITS: FetchLimits = { silence: 12_000, waiting: 600_000, bytes: 1024 ** 3 };

const PARTIAL = 206;
const MEGABYTE = 1024 ** 2;

/** Asks servers for ranges with Node's fetch, within limits; nothing but the range is read of an answer. */
export function rangeFetcher(limits: FetchLimits): AskRange {
  const spent = { waiting: 0, bytes: 0 };
  const tooMuch = new Error(`more than ${Math.round(limits.bytes / MEGABYTE)} MB in all; download the file first`);
  const tooSlow = new Error(`more than ${limits.waiting / 1000} s of waiting in all; download the file first`);
  const silent = new Error(`no word for ${limits.silence / 1000} s`);
  return async (address, { first, last }, signal) => {
    const given = new AbortController();
    const began = performance.now();
    let clock = setTimeout(() => given.abort(silent), limits.silence);
    const whole = setTimeout(() => given.abort(tooSlow), Math.max(0, limits.waiting - spent.waiting));
    const heard = (bytes: number): void => {
      clearTimeout(clock);
      clock = setTimeout(() => given.abort(silent), limits.silence);
      spent.bytes += bytes;
      if (spent.bytes > limits.bytes) given.abort(tooMuch);
    };
    try {
      const reply = await fetch(address, {
        headers: { Range: `bytes=${first}-${last}` },
        signal: signal ? AbortSignal.any([signal, given.signal]) : given.signal,
      });
      heard(0);
      const part = readContentRange(reply.headers.get('content-range'));
      const version = versionFrom(reply.headers);
      const bytes = await partOf(reply, { most: last - first + 1, heard, given: given.signal });
      return { status: reply.status, ...part, version, bytes };
    } catch (error) {
      throw signal?.aborted === true ? error : new Error(reasonOf(error, given.signal));
    } finally {
      clearTimeout(clock);
      clearTimeout(whole);
      spent.waiting += performance.now() - began;
    }
  };
}

interface Part {
  readonly most: number;
  readonly heard: (bytes: number) => void;
  readonly given: AbortSignal;
}

/** The bytes of a part, and one more where a server sends more than was asked for; of any other answer nothing is read. */
async function partOf(reply: Response, { most, heard, given }: Part): Promise<Uint8Array> {
  const reader = reply.status === PARTIAL ? reply.body?.getReader() : undefined;
  if (reader === undefined) {
    await reply.body?.cancel();
    return new Uint8Array(0);
  }
  const bytes = new Uint8Array(most + 1);
  let filled = 0;
  while (filled <= most) {
    const { done, value } = await reader.read();
    if (done) return bytes.subarray(0, filled);
    heard(value.length);
    given.throwIfAborted();
    bytes.set(value.subarray(0, bytes.length - filled), filled);
    filled += value.length;
  }
  await reader.cancel();
  return bytes;
}

/** What the network's codes mean. Source: POSIX errno names and Node's DNS and TLS errors. */
const REASONS: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'nobody listens there',
  ENOTFOUND: 'no machine of that name is known',
  EAI_AGAIN: 'the name could not be looked up now',
  ECONNRESET: 'the server broke the connection off',
  UND_ERR_SOCKET: 'the server broke the connection off',
  ETIMEDOUT: 'no connection in time',
  UND_ERR_CONNECT_TIMEOUT: 'no connection in time',
  EHOSTUNREACH: 'there is no way to that machine',
  ENETUNREACH: 'there is no network',
  CERT_HAS_EXPIRED: 'the certificate of the server has expired',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'the server vouches for itself only',
  ERR_TLS_CERT_ALTNAME_INVALID: 'the certificate is of another name',
};

/** Why a fetch failed, which the error itself only says in what caused it. */
function reasonOf(error: unknown, given: AbortSignal): string {
  if (given.aborted) return messageOf(given.reason);
  for (let cause = error; cause instanceof Error; cause = cause.cause) {
    const code = 'code' in cause ? String(cause.code) : '';
    if (code !== '') return `${REASONS[code] ?? cause.message} (${code})`;
    if (cause.cause === undefined) return cause.message;
  }
  return messageOf(error);
}

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
