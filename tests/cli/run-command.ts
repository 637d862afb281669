import type { CommandIo } from '../../src/cli/input/io.ts';
import { nodeIo } from '../../src/cli/input/node-io.ts';
import { main } from '../../src/cli/main.ts';

/** How a command line ended. */
export interface Ending {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process; texts by name come before the files of the disk. */
export async function runCommand(
  args: readonly string[],
  texts: Readonly<Record<string, string>> = {},
): Promise<Ending> {
  let out = '';
  let err = '';
  const io: CommandIo = {
    ...nodeIo,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    readText: async (path) => texts[path] ?? nodeIo.readText(path),
  };
  return { code: await main(args, io), out, err };
}
