import { chmod, mkdir, symlink, writeFile } from 'node:fs/promises';
import { dirname, join, normalize, sep } from 'node:path';

const block = 512;

/** Unpacks a tar archive (POSIX ustar, with GNU long names) held in memory into a folder. */
export async function unpackTar(archive, folder) {
  let longName = null;
  for (let at = 0; at + block <= archive.length; ) {
    const header = archive.subarray(at, at + block);
    if (header.every((byte) => byte === 0)) return;
    const size = Number.parseInt(text(header, 124, 12).trim() || '0', 8);
    const body = archive.subarray(at + block, at + block + size);
    const kind = text(header, 156, 1) || '0';
    if (kind === 'L') longName = text(body, 0, body.length);
    else {
      await place({ folder, name: longName ?? nameOf(header), kind, header, body });
      longName = null;
    }
    at += block + Math.ceil(size / block) * block;
  }
}

async function place({ folder, name, kind, header, body }) {
  const inside = normalize(name);
  if (inside.startsWith('..') || inside.startsWith(sep)) throw new Error(`tar: found ${name}, expected a path inside`);
  const path = join(folder, inside);
  if (kind === '5') {
    await mkdir(path, { recursive: true });
    return;
  }
  await mkdir(dirname(path), { recursive: true });
  if (kind === '2') await symlink(text(header, 157, 100), path);
  else if (kind === '0') {
    await writeFile(path, body);
    await chmod(path, Number.parseInt(text(header, 100, 8).trim(), 8) & 0o777);
  } else if (kind !== 'g' && kind !== 'x')
    throw new Error(`tar: found entry kind ${kind} for ${name}, expected a file`);
}

function nameOf(header) {
  const prefix = text(header, 345, 155);
  const name = text(header, 0, 100);
  return prefix === '' ? name : `${prefix}/${name}`;
}

function text(bytes, start, length) {
  const end = bytes.indexOf(0, start);
  const stop = end < 0 || end > start + length ? start + length : end;
  return bytes.subarray(start, stop).toString('utf8');
}
