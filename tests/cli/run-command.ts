import { InputError } from '../../src/cli/input-error.ts';
import { main } from '../../src/cli/main.ts';

/** How a command line ended. */
export interface Ending {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, with files by name. */
export async function runCommand(
  args: readonly string[],
  files: Readonly<Record<string, string>> = {},
): Promise<Ending> {
  let out = '';
  let err = '';
  const code = await main(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    readText: async (path) => {
      const text = files[path];
      if (text === undefined) throw new InputError(`${path}: found no such file`);
      return text;
    },
  });
  return { code, out, err };
}
