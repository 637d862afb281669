import type { Outcome, Problem } from '../units/outcome.ts';
import type { ByteSlice, ByteSource } from './byte-source.ts';
import { FileRefusal, refuse } from './file-refusal.ts';
import { joinSlices } from './join-slices.ts';
import type { AskRange, RangeReply } from './range-server.ts';

const PARTIAL = 206;
const FIRST_BYTES = 16 * 1024;
/** Requests under way at the same time, as many as browsers allow to one server. */
const AT_ONCE = 6;

/**
 * A file at an address, of which only the bytes that are needed are fetched.
 *
 * The server has to answer range requests and to say how large the file is. Its version is watched: a file that is replaced
 * while it is read is refused rather than put together from two.
 */
export async function openAddressSource(
  address: string,
  ask: AskRange,
  signal?: AbortSignal,
): Promise<Outcome<ByteSource>> {
  const name = nameOf(address);
  if (name === null) {
    return failed({ code: 'address', path: address, found: address, expected: 'an address that starts http or https' });
  }
  try {
    const reply = await ask(address, { first: 0, last: FIRST_BYTES - 1 }, signal);
    const size = checkFirst(reply, name);
    return { ok: true, value: sourceOf({ address, name, size, version: reply.version, ask }) };
  } catch (error) {
    if (signal?.aborted === true) throw error;
    if (error instanceof FileRefusal) return failed(error.problem);
    const found = error instanceof Error ? error.message : String(error);
    return failed({ code: 'address-silent', path: name, found, expected: 'a server that answers' });
  }
}

function failed(problem: Problem): Outcome<never> {
  return { ok: false, problems: [problem] };
}

/** Name of the file at the end of an http or https address; null for any other text. */
function nameOf(address: string): string | null {
  const match = /^https?:\/\/[^/?#\s]+(\/[^?#\s]*)?/i.exec(address);
  if (match === null) return null;
  return match[1]?.split('/').at(-1) || address;
}

function checkFirst(reply: RangeReply, where: string): number {
  checkStatus(reply.status, where);
  const { size } = reply;
  if (size !== null) return size;
  return refuse({
    code: 'address-size',
    where,
    found: 'no size of the whole file in the reply',
    expected: 'a server that shows the Content-Range header',
  });
}

function checkStatus(status: number, where: string): void {
  if (status === PARTIAL) return;
  if (status === 200) {
    refuse({
      code: 'address-no-ranges',
      where,
      found: 'a server that only sends whole files',
      expected: 'a server that answers range requests; download the file and open it from disk',
    });
  }
  refuse({ code: 'address-status', where, found: `status ${status}`, expected: 'status 206' });
}

interface Remote {
  readonly address: string;
  readonly name: string;
  readonly size: number;
  readonly version: string | null;
  readonly ask: AskRange;
}

function sourceOf(remote: Remote): ByteSource {
  return {
    name: remote.name,
    size: remote.size,
    read: async (slices, signal) => {
      const out: Uint8Array[] = slices.map(({ length }) => new Uint8Array(length));
      const runs = joinSlices(slices);
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
  const { name, ask, address, version } = remote;
  const reply = await ask(address, { first: offset, last: offset + length - 1 }, signal);
  checkStatus(reply.status, name);
  if (reply.version !== version || (reply.size !== null && reply.size !== remote.size)) {
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
