import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** A file on disk and what reads it. */
export interface FileToRead {
  readonly name: string;
  readonly kind: 'elevation' | 'points' | 'plan' | 'gluttony';
  readonly path: string;
}

export interface WhatCameOfIt {
  readonly name: string;
  /** `read`, `question`, or the codes of the refusal; null as long as it is being read. */
  readonly fate: string | null;
  /** The most memory that the process has had at once until then, MB. */
  readonly peak: number;
}

/** A folder that is gone when its user is done. */
export async function inFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'rillwright-'));
  try {
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Reads files one after the other in another process; one that keeps silent for `patience` ms is ended with an error. */
export async function readApart(
  files: readonly FileToRead[],
  { folder, patience }: { folder: string; patience: number },
): Promise<readonly WhatCameOfIt[]> {
  const script = await bundled(folder);
  const list = join(folder, 'files.json');
  writeFileSync(list, JSON.stringify(files));
  // A group of its own, so that the reader ends with the process between.
  const child = spawn(process.execPath, [script, list], { stdio: ['ignore', 'pipe', 'pipe'], detached: true });
  const told: WhatCameOfIt[] = [];
  const errors: Buffer[] = [];
  let silent = false;
  const stop = () => {
    silent = true;
    if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  };
  let clock = setTimeout(stop, patience);
  child.stderr.on('data', (part: Buffer) => errors.push(part));
  createInterface({ input: child.stdout }).on('line', (line) => {
    clearTimeout(clock);
    clock = setTimeout(stop, patience);
    told.push(JSON.parse(line));
  });
  const code = await new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  clearTimeout(clock);
  if (silent) throw new Error(`${told.at(-1)?.name}: nothing came of it within ${patience} ms`);
  if (code !== 0) throw new Error(`${told.at(-1)?.name}: ${Buffer.concat(errors).toString().slice(0, 2000)}`);
  return told.filter(({ fate }) => fate !== null);
}

async function bundled(folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    ssr: { noExternal: true },
    build: {
      ssr: fileURLToPath(new URL('read-in-turn.ts', import.meta.url)),
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      minify: false,
      rollupOptions: { output: { entryFileNames: 'read-in-turn.mjs', codeSplitting: false } },
    },
  });
  return join(folder, 'read-in-turn.mjs');
}
