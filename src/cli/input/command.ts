import type { CommandIo } from './io.ts';

/** One command of the command line. */
export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** Everything `--help` prints. */
  readonly usage: string;
  /** Answers on `io.out`; unusable input is thrown as an InputError. */
  run(args: readonly string[], io: CommandIo): Promise<void>;
}
