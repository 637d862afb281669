export { nodeIo } from './input/node-io.ts';

import type { Command, CommandIo } from './input/io.ts';
import { InputError } from './input/io.ts';
import { OutputError } from './input/output.ts';

/** The commands, each in its own file and loaded only when it is asked for. To add one, add a line. */
const COMMANDS: Readonly<Record<string, () => Promise<{ readonly command: Command }>>> = {
  assess: () => import('./commands/assess.ts'),
  mend: () => import('./commands/mend.ts'),
  profile: () => import('./commands/profile.ts'),
  pipe: () => import('./commands/pipe.ts'),
  cycle: () => import('./commands/cycle.ts'),
  diagnose: () => import('./commands/diagnose.ts'),
  route: () => import('./commands/route.ts'),
  site: () => import('./commands/site.ts'),
  reach: () => import('./commands/reach.ts'),
  survey: () => import('./commands/survey.ts'),
  import: () => import('./commands/import.ts'),
  export: () => import('./commands/export.ts'),
  clip: () => import('./commands/clip.ts'),
  bundle: () => import('./commands/bundle.ts'),
  merge: () => import('./commands/merge.ts'),
  report: () => import('./commands/report.ts'),
};

/** The answer was given. */
const ANSWERED = 0;
/** The program is wrong. */
const BROKEN = 1;
/** The input cannot be used. */
const UNUSABLE = 2;
/** There is no room for the answer. */
const NO_ROOM = 3;
/** Nobody reads the answer: 128 and the number of SIGPIPE, as shells say it of other programs. */
const CLOSED = 141;

/** Runs one command line and says how it ended: one of the numbers above. */
export async function main(args: readonly string[], io: CommandIo): Promise<number> {
  try {
    await runCommand(args, io);
    await io.written();
    return ANSWERED;
  } catch (error) {
    if (error instanceof OutputError) {
      // Whoever closed the output knows it.
      if (error.why === 'no-room') io.err(`rillwright: ${error.message}\n`);
      return error.why === 'no-room' ? NO_ROOM : CLOSED;
    }
    if (error instanceof InputError) {
      io.err(`rillwright: ${error.message.replace(/\s+/g, ' ')}\n`);
      return UNUSABLE;
    }
    io.err(`rillwright: a fault of the program: ${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
    return BROKEN;
  }
}

async function runCommand([name, ...args]: readonly string[], io: CommandIo): Promise<void> {
  if (name === '--help' || name === 'help') return io.out(await overview());
  const load = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (load === undefined) {
    const names = Object.keys(COMMANDS).join(', ');
    throw new InputError(`found ${name === undefined ? 'no command' : `command ${name}`}, expected ${names} or --help`);
  }
  const { command } = await load();
  if (args.includes('--help')) return io.out(command.usage);
  return command.run(args, io);
}

async function overview(): Promise<string> {
  const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));
  const width = Math.max(...commands.map(({ command }) => command.name.length));
  const lines = commands.map(({ command }) => `  ${command.name.padEnd(width)}  ${command.summary}`);
  return `Plans hydraulic ram pump systems.\n\nrillwright COMMAND …\n\n${lines.join('\n')}\n\nrillwright COMMAND --help says more.\n`;
}
