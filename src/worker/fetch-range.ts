import { type AskRange, type RangeReply, readContentRange, versionFrom } from '../terrain/bytes/range-server.ts';

const PARTIAL = 206;
/** Silence of a server after which a request is given up, ms; two in a row are shorter than the page's own patience. */
const IDLE = 12_000;

/** No cookies and no word of the page go along; every version of the file is asked for anew. */
const PLAIN: RequestInit = { credentials: 'omit', referrerPolicy: 'no-referrer', cache: 'no-store' };

/** Asks servers for ranges with the browser's own fetch, and tells of the bytes as they come. */
export function rangeFetcher(onBytes: (count: number) => void): AskRange {
  return async (address, { first, last }, signal) => {
    const idle = new IdleClock(IDLE);
    try {
      const reply = await fetch(address, {
        ...PLAIN,
        headers: { Range: `bytes=${first}-${last}` },
        signal: signal === undefined ? idle.signal : AbortSignal.any([signal, idle.signal]),
      });
      idle.restart();
      const most = last - first + 1;
      const heard = (count: number) => {
        idle.restart();
        onBytes(count);
      };
      return { ...headOf(reply), bytes: await partOf(reply, most, heard) };
    } finally {
      idle.stop();
    }
  };
}

function headOf(reply: Response): Omit<RangeReply, 'bytes'> {
  const part = readContentRange(reply.headers.get('content-range'));
  return { status: reply.status, ...part, version: versionFrom(reply.headers) };
}

/** The bytes of a part, and one more where a server sends more than was asked for; of any other reply nothing is read. */
async function partOf(reply: Response, most: number, heard: (count: number) => void): Promise<Uint8Array> {
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
    bytes.set(value.subarray(0, bytes.length - filled), filled);
    filled += value.length;
  }
  await reader.cancel();
  return bytes;
}

/** Size of the file where the range's own reply hides it: the length that the answer to HEAD states. */
export async function askSize(address: string, signal?: AbortSignal): Promise<number | null> {
  const reply = await fetch(address, { ...PLAIN, method: 'HEAD', signal: timeLimit(signal) });
  const text = reply.headers.get('content-length');
  const size = text === null ? Number.NaN : Number(text);
  return reply.status === 200 && Number.isSafeInteger(size) ? size : null;
}

/** Whether anybody answers there at all, even with an answer that the browser keeps from this page. */
export async function isHeard(address: string, signal?: AbortSignal): Promise<boolean> {
  try {
    await fetch(address, { ...PLAIN, method: 'HEAD', mode: 'no-cors', signal: timeLimit(signal) });
    return true;
  } catch {
    return false;
  }
}

function timeLimit(signal: AbortSignal | undefined): AbortSignal {
  const limit = AbortSignal.timeout(IDLE);
  return signal === undefined ? limit : AbortSignal.any([signal, limit]);
}

/** Gives up after a time without a sign of life. */
class IdleClock {
  readonly #most: number;
  readonly #stop = new AbortController();
  #clock: ReturnType<typeof setTimeout>;

  constructor(most: number) {
    this.#most = most;
    this.#clock = this.#start();
  }

  get signal(): AbortSignal {
    return this.#stop.signal;
  }

  restart(): void {
    clearTimeout(this.#clock);
    this.#clock = this.#start();
  }

  stop(): void {
    clearTimeout(this.#clock);
  }

  #start(): ReturnType<typeof setTimeout> {
    return setTimeout(() => this.#stop.abort(new Error(`no answer within ${this.#most / 1000} s`)), this.#most);
  }
}
