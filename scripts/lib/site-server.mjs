import { readFile, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { cacheControl, siteHeaders } from './site-headers.mjs';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.geojson': 'application/geo+json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.tif': 'image/tiff',
  '.txt': 'text/plain; charset=utf-8',
};

/**
 * Serves a folder with a built site to this machine only. What is not there is 404: a page in the place of a missing script
 * would leave a button that does nothing. Resolves once the port is taken; `fill` says later where the site lies.
 */
export async function listen({ port, host = '127.0.0.1' }) {
  let folder = null;
  const server = createServer((request, response) => {
    answer(folder, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, host }, resolve);
  });
  return {
    port: server.address().port,
    fill: async (place) => {
      const headers = siteHeaders(await readFile(join(place, 'index.html'), 'utf8'));
      folder = { place, headers };
    },
    close: () =>
      new Promise((resolve) => {
        server.close(resolve);
        server.closeAllConnections();
      }),
  };
}

async function answer(folder, request, response) {
  const end = (status, headers, body) => {
    response.writeHead(status, { 'x-served-by': 'rillwright', ...folder?.headers, ...headers });
    response.end(request.method === 'HEAD' ? undefined : body);
  };
  if (folder === null) return end(503, { 'retry-after': '2' }, 'The site is being built.\n');
  if (request.method !== 'GET' && request.method !== 'HEAD') return end(405, { allow: 'GET, HEAD' });
  const path = pathOf(request.url);
  const file = path === null ? null : await bytesOf(join(folder.place, path));
  if (file === null) return end(404, { 'content-type': TYPES['.txt'] }, 'There is no such file.\n');
  const type = TYPES[extname(path)] ?? 'application/octet-stream';
  end(200, { 'content-type': type, 'cache-control': cacheControl(path), 'content-length': file.length }, file);
}

/** The path inside the folder; null for one that leads out of it or cannot be read. */
function pathOf(address) {
  try {
    const path = decodeURIComponent(new URL(address, 'http://here').pathname);
    const inside = normalize(path.endsWith('/') ? `${path}index.html` : path);
    return inside.includes('\0') || inside.split(sep).includes('..') ? null : inside;
  } catch {
    return null;
  }
}

async function bytesOf(path) {
  try {
    return (await stat(path)).isFile() ? await readFile(path) : null;
  } catch {
    return null;
  }
}
