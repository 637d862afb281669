import { createServer, request } from 'node:http';

/** Serves the site of another origin, and from the moment that it is told to, a version of it with another worker. */
export async function changingSite(origin) {
  let changed = false;
  const server = createServer((asked, answer) => {
    const worker = new URL(asked.url, origin).pathname === '/service-worker.js';
    const headers = { ...asked.headers, host: new URL(origin).host, 'accept-encoding': 'identity' };
    request(new URL(asked.url, origin), { method: asked.method, headers }, (found) => {
      const { 'content-length': _, etag: __, ...rest } = found.headers;
      answer.writeHead(found.statusCode, worker ? { ...rest, 'cache-control': 'no-store' } : found.headers);
      found.pipe(answer, { end: !worker });
      if (worker) found.on('end', () => answer.end(changed ? '\n// a later version\n' : ''));
    })
      .on('error', () => answer.destroy())
      .end();
  });
  await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    origin: `http://127.0.0.1:${server.address().port}`,
    change: () => {
      changed = true;
    },
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}
