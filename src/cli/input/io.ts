import type { ByteSource } from '../../terrain/bytes/byte-source.ts';

/** Input that no answer can be given to, in one line: what was found and what was expected. */
export class InputError extends Error {
  override readonly name = 'InputError';
}

/** An open file, to be closed after use. */
export interface OpenFile extends ByteSource {
  close(): Promise<void>;
}

/** What a command may do with the world; tests hand in their own. */
export interface CommandIo {
  /** Writes to standard output. */
  out(text: string): void;
  /** Resolves once all of it is written; rejects with an OutputError where something was not. */
  written(): Promise<void>;
  /** Writes to standard error. */
  err(text: string): void;
  /** Text of a file; rejects with an InputError that names the file when it cannot be read. */
  readText(path: string): Promise<string>;
  /** Writes a new file; rejects with an InputError where one is there already or none can be made, with an OutputError where there is no room. */
  writeFile(path: string, bytes: Uint8Array): Promise<void>;
  /** Opens files to read bytes from; rejects with an InputError that names the first one that cannot be opened. */
  openFiles(paths: readonly string[]): Promise<readonly OpenFile[]>;
  /** Adds a text to the end of a file, which is made where there is none. */
  appendFile(path: string, text: string): Promise<void>;
  /** Cuts a half line off the end of a file and counts the whole ones; 0 where there is no such file. */
  keepWholeLines(path: string): Promise<number>;
  /** Runs this program once more beside this one: the lines it writes. Rejects with an InputError when it does not answer. */
  runSelf(args: readonly string[]): AsyncIterable<string>;
}

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
