import type { Outcome, Problem } from '../../units/outcome.ts';
import { addressName } from './address-name.ts';
import type { ByteSlice, ByteSource } from './byte-source.ts';
import { FileRefusal, refuse } from './file-refusal.ts';
import type { AskRange, ByteRange, RangeReply } from './range-server.ts';

/** A run of bytes that several slices are cut from, by their indices. */
interface JoinedSlices extends ByteSlice {
  readonly slices: readonly number[];
}

/** Gap that is cheaper to read along than to ask twice for. Common practice, no source. */
const GAP = 32 * 1024;
const LONGEST = 4 * 1024 * 1024;

/** Joins slices that lie next to one another, or nearly so, into runs; empty slices fall out. */
export function joinSlices(slices: readonly ByteSlice[]): readonly JoinedSlices[] {
  const order = slices.map((_, index) => index).filter((index) => (slices[index]?.length ?? 0) > 0);
  order.sort((p, q) => (slices[p]?.offset ?? 0) - (slices[q]?.offset ?? 0));
  const runs: { offset: number; length: number; slices: number[] }[] = [];
  for (const index of order) {
    const { offset, length } = slices[index] as ByteSlice;
    const last = runs.at(-1);
    const end = Math.max(offset + length, last === undefined ? 0 : last.offset + last.length);
    const near = last !== undefined && offset <= last.offset + last.length + GAP && end - last.offset <= LONGEST;
    if (!near) {
      runs.push({ offset, length, slices: [index] });
      continue;
    }
    last.length = end - last.offset;
    last.slices.push(index);
  }
  return runs;
}

const PARTIAL = 206;
const WHOLE = 200;
/** Bytes of the first request; most files have their directories within them. */
const FIRST_BYTES = 16 * 1024;
/** Requests under way at the same time, as many as browsers allow to one server. */
const AT_ONCE = 6;

/** What else is known of an address, or can be asked there. */
export interface AddressOptions {
  /** What the file goes by; its name at the end of the address when left out. */
  readonly name?: string;
  readonly signal?: AbortSignal;
  /** Asks for the size of the file where the reply to a range hides it. */
  readonly askSize?: (address: string, signal?: AbortSignal) => Promise<number | null>;
  /** Whether somebody answers there whose answers may not be read. */
  readonly isHeard?: (address: string, signal?: AbortSignal) => Promise<boolean>;
}

/**
 * A file at an address, of which only the bytes that are needed are fetched.
 *
 * The server has to answer range requests and to say how large the file is. Its version is watched: a file that is replaced
 * while it is read is refused rather than put together from two.
 */
export async function openAddressSource(
  address: string,
  ask: AskRange,
  options: AddressOptions = {},
): Promise<Outcome<ByteSource>> {
  const name = options.name ?? addressName(address);
  if (name === null) {
    return failed({ code: 'address', path: address, found: address, expected: 'an address that starts http or https' });
  }
  const { signal } = options;
  try {
    const reply = await firstReply({ address, name, ask }, options);
    const size = await sizeOf(reply, { address, name }, options);
    return { ok: true, value: sourceOf({ address, name, size, version: reply.version, head: reply.bytes, ask }) };
  } catch (error) {
    if (signal?.aborted === true) throw error;
    if (error instanceof FileRefusal) return failed(error.problem);
    return failed({ code: 'address-silent', path: name, found: messageOf(error), expected: 'a server that answers' });
  }
}

function failed(problem: Problem): Outcome<never> {
  return { ok: false, problems: [problem] };
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

interface Asked {
  readonly address: string;
  readonly name: string;
  readonly ask: AskRange;
}

/**
 * To a page, a server that keeps its files to its own pages looks like one that is not there: `fetch` gives a `TypeError`
 * for both. Asking once more tells them apart. Source: Fetch Standard, WHATWG, section 5.6.
 */
async function firstReply(asked: Asked, { signal, isHeard }: AddressOptions): Promise<RangeReply> {
  const { address, name, ask } = asked;
  const range = { first: 0, last: FIRST_BYTES - 1 };
  let reply: RangeReply;
  try {
    reply = await ask(address, range, signal);
  } catch (error) {
    const unheard = !(error instanceof TypeError) || signal?.aborted === true;
    if (unheard || !(await isHeard?.(address, signal))) throw error;
    return refuse({
      code: 'address-not-shared',
      where: name,
      found: 'a server that keeps its files from other pages',
      expected: 'the header Access-Control-Allow-Origin',
    });
  }
  checkReply(reply, range, name);
  return reply;
}

async function sizeOf(
  reply: RangeReply,
  { address, name }: Omit<Asked, 'ask'>,
  { signal, askSize }: AddressOptions,
): Promise<number> {
  const size = reply.size ?? (await askSize?.(address, signal)) ?? null;
  if (size !== null && size >= reply.bytes.length) return size;
  return refuse({
    code: 'address-size',
    where: name,
    found: 'no size of the whole file in the reply',
    expected: 'a server that shows the Content-Range header',
  });
}

function checkReply(reply: RangeReply, range: ByteRange, where: string): void {
  checkStatus(reply.status, where);
  if (reply.first !== null && reply.first !== range.first) {
    const found = `a part that begins at byte ${reply.first}`;
    refuse({ code: 'address-short', where, found, expected: `one that begins at ${range.first}` });
  }
  const most = range.last - range.first + 1;
  if (reply.bytes.length > most) {
    refuse({ code: 'address-short', where, found: `more than ${most} bytes`, expected: `${most} bytes` });
  }
}

function checkStatus(status: number, where: string): void {
  if (status === PARTIAL) return;
  if (status === WHOLE) {
    refuse({
      code: 'address-no-ranges',
      where,
      found: 'a server that only sends whole files',
      expected: 'a server that answers range requests; download the file and open it from disk',
    });
  }
  refuse({ code: 'address-status', where, found: `status ${status}`, expected: 'status 206' });
}

interface Remote extends Asked {
  readonly size: number;
  readonly version: string | null;
  /** The first bytes of the file, which came with the first reply. */
  readonly head: Uint8Array;
}

function sourceOf(remote: Remote): ByteSource {
  const { name, size, head } = remote;
  return {
    name,
    size,
    read: async (slices, signal) => {
      const out: Uint8Array[] = slices.map(({ length }) => new Uint8Array(length));
      const there = ({ offset, length }: ByteSlice) => offset + length <= head.length;
      slices.forEach((slice, index) => {
        if (there(slice)) out[index]?.set(head.subarray(slice.offset, slice.offset + slice.length));
      });
      const runs = joinSlices(slices.map((slice) => (there(slice) ? { offset: slice.offset, length: 0 } : slice)));
      for (let from = 0; from < runs.length; from += AT_ONCE) {
        await Promise.all(
          runs.slice(from, from + AT_ONCE).map(async (run) => {
            const bytes = await fetchRun(remote, run, signal);
            for (const index of run.slices) {
              const { offset, length } = slices[index] as ByteSlice;
              out[index]?.set(bytes.subarray(offset - run.offset, offset - run.offset + length));
            }
          }),
        );
      }
      return out;
    },
  };
}

async function fetchRun(remote: Remote, { offset, length }: ByteSlice, signal?: AbortSignal): Promise<Uint8Array> {
  const { name, version, size } = remote;
  const range = { first: offset, last: offset + length - 1 };
  const reply = await askOrRefuse(remote, range, signal);
  checkReply(reply, range, name);
  if (reply.version !== version || (reply.size !== null && reply.size !== size)) {
    refuse({ code: 'address-changed', where: name, found: 'another version of the file', expected: 'the one opened' });
  }
  if (reply.bytes.length === length) return reply.bytes;
  return refuse({
    code: 'address-short',
    where: name,
    found: `${reply.bytes.length} bytes at ${offset}`,
    expected: `${length} bytes`,
  });
}

async function askOrRefuse({ address, name, ask }: Asked, range: ByteRange, signal?: AbortSignal): Promise<RangeReply> {
  try {
    return await ask(address, range, signal);
  } catch (error) {
    if (signal?.aborted === true || error instanceof FileRefusal) throw error;
    return refuse({
      code: 'address-silent',
      where: name,
      found: messageOf(error),
      expected: 'a server that still answers',
    });
  }
}
