import { type AskRange, readContentRange, versionFrom } from '../../terrain/bytes/range-server.ts';

const PARTIAL = 206;

/** Asks a server for a range with Node's fetch; nothing else of it is read. */
export const fetchRange: AskRange = async (address, { first, last }, signal) => {
  const reply = await fetch(address, {
    headers: { Range: `bytes=${first}-${last}` },
    ...(signal && { signal }),
  });
  const part = readContentRange(reply.headers.get('content-range'));
  const version = versionFrom(reply.headers);
  if (reply.status === PARTIAL) {
    return { status: PARTIAL, ...part, version, bytes: new Uint8Array(await reply.arrayBuffer()) };
  }
  await reply.body?.cancel();
  return { status: reply.status, ...part, version, bytes: new Uint8Array(0) };
};
