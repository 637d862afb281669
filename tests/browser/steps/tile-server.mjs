import { createServer } from 'node:http';
import { deflateSync } from 'node:zlib';

/**
 * A server of map tiles on this machine, on an origin of its own: every tile is one colour, magenta, which nothing else on the
 * map has. The first part of a path names what is wrong with it: `good`, `shallow` (none beyond zoom 12), `private` (no headers
 * for other origins), `missing`, `locked`, `page` (HTML in place of a picture), `wide` (a picture far larger than a tile).
 */
export async function serveTiles() {
  const asked = [];
  const server = createServer((request, reply) => {
    asked.push(request.url);
    answer(request.url, reply);
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const close = () => {
    server.closeAllConnections();
    return new Promise((done) => server.close(done));
  };
  return { origin: `http://127.0.0.1:${server.address().port}`, asked, close };
}

const STATUS = { missing: 404, locked: 403 };

function answer(url, reply) {
  const [, way, zoom] = url.split('/');
  const shared = way === 'private' ? {} : { 'access-control-allow-origin': '*' };
  const status = way === 'shallow' && Number(zoom) > 12 ? 404 : (STATUS[way] ?? 200);
  if (status !== 200) reply.writeHead(status, shared).end();
  else if (way === 'page') reply.writeHead(200, shared).end('<!doctype html><title>Sign in</title>');
  else reply.writeHead(200, { ...shared, 'content-type': 'image/png' }).end(plainPng(way === 'wide' ? 3000 : 256));
}

/** A square of magenta as PNG (ISO/IEC 15948): one palette entry, one bit a pixel. */
export function plainPng(side, colour = [255, 0, 255]) {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  head.set([1, 3, 0, 0, 0], 8);
  const rows = Buffer.alloc(side * (1 + Math.ceil(side / 8)));
  const signature = Buffer.from('89504e470d0a1a0a', 'hex');
  const parts = [chunk('IHDR', head), chunk('PLTE', Buffer.from(colour)), chunk('IDAT', deflateSync(rows))];
  return Buffer.concat([signature, ...parts, chunk('IEND', Buffer.alloc(0))]);
}

function chunk(name, body) {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), body]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(body.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc(named));
  return Buffer.concat([length, named, sum]);
}

function crc(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return (rest ^ 0xffffffff) >>> 0;
}
