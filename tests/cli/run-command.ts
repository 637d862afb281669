import { existsSync } from 'node:fs';
import type { CommandIo, OpenFile } from '../../src/cli/input/io.ts';
import { nodeIo } from '../../src/cli/input/node-io.ts';
import { main } from '../../src/cli/main.ts';
import { sourceOf } from '../terrain/fixture-files.ts';

/** How a command line ended. */
export interface Ending {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** What it wrote, by name; nothing of it is on the disk. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** Runs a command line in this process; texts and files by name come before those of the disk, and nothing is written over. */
export async function runCommand(
  args: readonly string[],
  texts: Readonly<Record<string, string>> = {},
  binary: Readonly<Record<string, Uint8Array>> = {},
): Promise<Ending> {
  const files = new Map<string, Uint8Array>();
  let out = '';
  let err = '';
  const io: CommandIo = {
    ...nodeIo,
    out: (text) => {
      out += text;
    },
    written: async () => undefined,
    err: (text) => {
      err += text;
    },
    writeFile: async (path, bytes) => {
      if (existsSync(path)) return nodeIo.writeFile(path, bytes);
      files.set(path, bytes);
    },
    openFiles: async (paths) =>
      Promise.all(
        paths.map(async (path): Promise<OpenFile> => {
          const bytes = binary[path];
          if (bytes !== undefined) return { ...sourceOf(path, bytes), close: async () => undefined };
          const [file] = await nodeIo.openFiles([path]);
          if (file === undefined) throw new Error(`found no file ${path}`);
          return file;
        }),
      ),
    readText: async (path) => texts[path] ?? nodeIo.readText(path),
  };
  const code = await main(args, io);
  return { code, out, err, files };
}
