import { createServer } from 'node:http';

/**
 * A server of one file on this machine, on an origin of its own. The first part of a path names what is wrong with it:
 * `good`, `whole` (no ranges), `private` (no headers for other origins), `missing`, `page` (HTML in place of the file),
 * `changing` (another version with every answer), `hidden` (size shown by HEAD only), `held` (never answers).
 */
export async function serveRanges(bytes) {
  const asked = [];
  let unanswered = 0;
  const server = createServer((request, reply) => {
    asked.push({ method: request.method, url: request.url, range: request.headers.range ?? null });
    unanswered += 1;
    reply.once('close', () => {
      unanswered -= 1;
    });
    answer(request, reply, { bytes, turn: asked.length });
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const close = () => {
    server.closeAllConnections();
    return new Promise((done) => server.close(done));
  };
  return { origin: `http://127.0.0.1:${server.address().port}`, asked, unanswered: () => unanswered, close };
}

function answer(request, reply, { bytes, turn }) {
  const way = request.url.split('/')[1];
  if (way === 'held') return;
  const shared = way === 'private' ? {} : sharedHeaders(way);
  if (request.method === 'OPTIONS') {
    reply.writeHead(204, { ...shared, 'access-control-allow-headers': 'range' }).end();
    return;
  }
  if (way === 'missing') {
    reply.writeHead(404, shared).end();
    return;
  }
  const body = way === 'page' ? Buffer.from(`<!doctype html><title>Sign in</title>${' '.repeat(400)}`) : bytes;
  const range = /^bytes=(\d+)-(\d+)$/.exec(request.headers.range ?? '');
  if (range === null || way === 'whole' || request.method === 'HEAD') {
    reply.writeHead(200, { ...shared, 'content-length': body.length });
    reply.end(request.method === 'HEAD' ? undefined : body);
    return;
  }
  const first = Number(range[1]);
  const last = Math.min(Number(range[2]), body.length - 1);
  reply.writeHead(206, {
    ...shared,
    'content-range': `bytes ${first}-${last}/${body.length}`,
    etag: way === 'changing' ? `"${turn}"` : '"one"',
  });
  reply.end(body.subarray(first, last + 1));
}

function sharedHeaders(way) {
  const open = { 'access-control-allow-origin': '*' };
  return way === 'hidden' ? open : { ...open, 'access-control-expose-headers': 'Content-Range, ETag' };
}
