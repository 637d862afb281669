import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { unpackTar } from '../browser/harness/read-tar.mjs';

/** A tar entry by the layout of POSIX.1-1988 (ustar): 512-byte header with octal numbers, body padded to 512 bytes. */
function entry(name: string, body: string, { kind = '0', mode = '755' } = {}): Buffer {
  const header = Buffer.alloc(512);
  header.write(name, 0);
  header.write(mode.padStart(7, '0'), 100);
  header.write(Buffer.byteLength(body).toString(8).padStart(11, '0'), 124);
  header.write(kind, 156);
  header.write('ustar', 257);
  const padded = Buffer.alloc(Math.ceil(Buffer.byteLength(body) / 512) * 512);
  padded.write(body);
  return Buffer.concat([header, padded]);
}

async function unpacked<T>(archive: Buffer, look: (folder: string) => T): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'read-tar-'));
  try {
    await unpackTar(Buffer.concat([archive, Buffer.alloc(1024)]), folder);
    return look(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test('files land in their folders with their content and mode, long names too', async () => {
  const long = `${'deep/'.repeat(30)}file`;
  const archive = Buffer.concat([
    entry('lib/', '', { kind: '5' }),
    entry('lib/a.so', 'x'.repeat(700), { mode: '755' }),
    entry('././@LongLink', long, { kind: 'L' }),
    entry('shortened', 'far down', { mode: '644' }),
  ]);
  await unpacked(archive, (folder) => {
    expect(readFileSync(join(folder, 'lib/a.so'), 'utf8')).toBe('x'.repeat(700));
    expect(statSync(join(folder, 'lib/a.so')).mode & 0o777).toBe(0o755);
    expect(readFileSync(join(folder, long), 'utf8')).toBe('far down');
  });
});

test('an entry that points out of the folder is refused', async () => {
  await expect(unpacked(entry('../outside', 'x'), () => null)).rejects.toThrow('expected a path inside');
  await expect(unpacked(entry('/etc/outside', 'x'), () => null)).rejects.toThrow('expected a path inside');
});
