import { proposeSystems } from '../../siting/systems/propose-systems.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import { type Flags, readFlags } from '../input/flags.ts';
import { type Command, type CommandIo, InputError } from '../input/io.ts';
import { onlyOperand } from '../input/plan-operand.ts';
import { SEARCH_SHAPES, SEARCH_USAGE, type SearchFlags, searchFlags } from '../input/site-flags.ts';
import { siteJson } from '../input/site-json.ts';
import { idOfLine, springLine } from '../input/spring-line.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';
import { answerOf } from './site.ts';

const USAGE = `rillwright survey SPRINGS.ndjson --dem FILE… [--part 3/16] [--workers N] [--out ANSWERS.ndjson]

The answer of site for many springs: one spring a line, as a GeoJSON point feature, one answer a line in the same order. A
line that cannot be answered is a line with its problem, and the rest goes on.

A feature's properties: yield, such as "12L/min" or several readings in a list; where they are known need ("1500L/day"), lift
("30m"), tanks ([[lon, lat], …]) and name.

  --part         3/16 takes the third of every sixteen lines; the parts put together line by line are the whole
  --workers      so many of this machine's processors; 1 when not given
  --out          a file to write to; one that is there is gone on with, so that a broken run can be taken up again
${SEARCH_USAGE}${TERRAIN_USAGE}`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  ...SEARCH_SHAPES,
  '--part': 'value',
  '--workers': 'value',
  '--out': 'value',
} as const;

export const command: Command = {
  name: 'survey',
  summary: 'the same for many springs, part by part',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const path = onlyOperand(flags, 'file of springs', 'newline-delimited GeoJSON');
    const part = partFrom(flags);
    const workers = workersFrom(flags);
    const search = await searchFlags(flags, io);
    const lines = linesOf(await io.readText(path)).filter((_, k) => k % part.of === part.which - 1);
    const out = flags.text('--out');
    const done = out === null ? 0 : await io.keepWholeLines(out);
    const write = (line: string): Promise<void> | void => (out === null ? io.out(line) : io.appendFile(out, line));
    if (workers > 1) return acrossProcesses({ args, io, workers, part, count: lines.length, done, write });
    await withTerrain(flags, io, {
      use: async (terrain) => {
        for (const line of lines.slice(done))
          await write(`${JSON.stringify(await answerLine(line, terrain, search, flags))}\n`);
      },
    });
  },
};

const linesOf = (text: string): string[] => text.split('\n').filter((line) => line.trim() !== '');

/** One spring's answer; what is wrong with it is its answer too. */
async function answerLine(line: string, terrain: GridTerrain, search: SearchFlags, flags: Flags): Promise<unknown> {
  const id = idOfLine(line);
  try {
    const spring = springLine(line);
    const reference = { files: terrain.about.files, accuracy: flags.text('--accuracy'), constants: null };
    const answer = answerOf(await proposeSystems(search.request(spring, reference), terrain));
    return { id, ...siteJson(answer, search.units) };
  } catch (error) {
    if (error instanceof InputError) return { id, problem: error.message };
    throw error;
  }
}

interface Part {
  readonly which: number;
  readonly of: number;
}

function partFrom(flags: Flags): Part {
  const text = flags.text('--part');
  if (text === null) return { which: 1, of: 1 };
  const found = /^(\d+)\/(\d+)$/.exec(text);
  const which = Number(found?.[1]);
  const of = Number(found?.[2]);
  if (found && which >= 1 && which <= of) return { which, of };
  throw new InputError(`--part: found ${text}, expected a part such as 3/16, from 1/16 to 16/16`);
}

function workersFrom(flags: Flags): number {
  const text = flags.text('--workers');
  if (text === null) return 1;
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1 && count <= MOST_WORKERS) return count;
  throw new InputError(`--workers: found ${text}, expected a whole number from 1 to ${MOST_WORKERS}`);
}

const MOST_WORKERS = 256;

interface Across {
  readonly args: readonly string[];
  readonly io: CommandIo;
  readonly workers: number;
  readonly part: Part;
  readonly count: number;
  readonly done: number;
  readonly write: (line: string) => Promise<void> | void;
}

/**
 * The same command in processes of its own, each a part of this part: worker w of W takes every W-th line of part k of n, which
 * is part k + n (w − 1) of n W. Their lines are put together in the order of the springs.
 */
async function acrossProcesses({ args, io, workers, part, count, done, write }: Across): Promise<void> {
  const own = withoutFlags(args, ['--workers', '--part', '--out']);
  const streams = Array.from({ length: workers }, (_, w) => {
    const which = part.which + part.of * w;
    return io.runSelf([...own, '--part', `${which}/${part.of * workers}`])[Symbol.asyncIterator]();
  });
  try {
    for (let k = 0; k < count; k++) {
      const next = await streams[k % workers]?.next();
      if (!next || next.done) throw new InputError(`a worker: found ${k} answers, expected ${count}`);
      if (k >= done) await write(`${next.value}\n`);
    }
  } finally {
    await Promise.all(streams.map((stream) => stream.return?.()));
  }
}

function withoutFlags(args: readonly string[], flags: readonly string[]): string[] {
  const kept: string[] = ['survey'];
  for (let k = 0; k < args.length; k++) {
    const arg = args[k] as string;
    if (flags.includes(arg)) k += 1;
    else if (!flags.some((flag) => arg.startsWith(`${flag}=`))) kept.push(arg);
  }
  return kept;
}
