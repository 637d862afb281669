import { type AskRange, sizeFromContentRange, versionFrom } from '../terrain/range-server.ts';

const PARTIAL = 206;

/** Asks a server for a range with the browser's own fetch; nothing else of it is read, and no cookies go along. */
export const fetchRange: AskRange = async (address, { first, last }, signal) => {
  const reply = await fetch(address, {
    headers: { Range: `bytes=${first}-${last}` },
    credentials: 'omit',
    referrerPolicy: 'no-referrer',
    cache: 'no-store',
    ...(signal && { signal }),
  });
  const size = sizeFromContentRange(reply.headers.get('content-range'));
  const version = versionFrom(reply.headers);
  if (reply.status === PARTIAL) {
    return { status: PARTIAL, size, version, bytes: new Uint8Array(await reply.arrayBuffer()) };
  }
  await reply.body?.cancel();
  return { status: reply.status, size, version, bytes: new Uint8Array(0) };
};
