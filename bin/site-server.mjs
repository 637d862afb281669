import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';

/** What a browser has to be told of a file by its ending; the rest are bytes. */
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.geojson': 'application/geo+json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.tif': 'image/tiff',
  '.txt': 'text/plain; charset=utf-8',
};

/** File names with a hash of their content never change. */
const HASHED = /^\/assets\/.*-[\w-]{8}\.\w+$/;

/**
 * Serves the files of a folder on this machine, and nothing else: GET and HEAD only, 404 for what is not there. `headersFor`
 * adds headers of its own to an answer, by the path asked for.
 */
export async function serveFolder(folder, { port, host = '127.0.0.1', headersFor = () => ({}) }) {
  const top = await realpath(folder);
  const server = createServer((request, reply) => {
    answer({ top, headersFor }, request, reply).catch(() => end(reply, 500, 'The file cannot be read.\n'));
  });
  await new Promise((done, failed) => {
    server.once('error', failed);
    server.listen(port, host, done);
  });
  return { server, address: `http://${host}:${server.address().port}/` };
}

async function answer({ top, headersFor }, request, reply) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    reply.setHeader('allow', 'GET, HEAD');
    return end(reply, 405, 'Only GET and HEAD are answered.\n');
  }
  const path = pathOf(request.url);
  const file = path === null ? null : await fileAt(top, asked(path));
  for (const [name, value] of Object.entries(headersFor(path ?? ''))) reply.setHeader(name, value);
  if (file === null) return end(reply, 404, 'There is no such file.\n');
  const tag = `"${file.size.toString(36)}-${Math.round(file.mtimeMs).toString(36)}"`;
  reply.setHeader('etag', tag);
  reply.setHeader('x-content-type-options', 'nosniff');
  reply.setHeader('cache-control', HASHED.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
  if (request.headers['if-none-match'] === tag) return reply.writeHead(304).end();
  reply.setHeader('content-type', TYPES[extname(file.path).toLowerCase()] ?? 'application/octet-stream');
  reply.setHeader('content-length', file.size);
  if (request.method === 'HEAD') return reply.writeHead(200).end();
  const stream = createReadStream(file.path, { end: Math.max(0, file.size - 1) });
  // What breaks off after the head was sent can only be told by breaking off.
  stream.on('error', () => reply.destroy());
  reply.on('close', () => stream.destroy());
  stream.pipe(reply.writeHead(200));
}

/** A folder is asked for its page; browsers ask for a mark beside what is no page by a name of their own. */
function asked(path) {
  if (path === '/favicon.ico') return '/mark.svg';
  return path.endsWith('/') ? `${path}index.html` : path;
}

function end(reply, status, words) {
  if (reply.headersSent) return void reply.destroy();
  reply.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' }).end(words);
}

/** The path of an address, decoded; null where it is none. */
function pathOf(url) {
  try {
    const path = decodeURIComponent(new URL(url, 'http://here').pathname);
    return path.includes('\0') ? null : path;
  } catch {
    return null;
  }
}

/** A file within the folder, links followed; null where there is none. */
async function fileAt(top, path) {
  try {
    const real = await realpath(join(top, path));
    const about = await stat(real);
    if (!about.isFile() || !real.startsWith(top + sep)) return null;
    return { path: real, size: about.size, mtimeMs: about.mtimeMs };
  } catch {
    return null;
  }
}
