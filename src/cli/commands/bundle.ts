import { type FieldBundle, MOST_HEIGHTS, missingInBundle, writeBundle } from '../../report/exchange/field-bundle.ts';
import { linesOf } from '../../report/exchange/lines-to-take.ts';
import { takeHeights } from '../../terrain/clip/field-heights.ts';
import { readFlags, required } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { planFrom } from '../input/plan-operand.ts';
import { problemLine } from '../input/problem-line.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';

const USAGE = `rillwright bundle PLAN --dem FILE… --out FIELD.zip

One file for use out of doors: the plan with its readings and records, and the ground around it, as far as ${MOST_HEIGHTS / 1e6} MB
go. It opens in the planner without a network, and every command takes it in place of a plan, without --dem. Answers inside
its ground are those of the whole files, to the digit. What comes back is merged with rillwright merge.

  --out          the new file
${TERRAIN_USAGE}`;

const SHAPES = { ...TERRAIN_SHAPES, '--out': 'value' } as const;

export const command: Command = {
  name: 'bundle',
  summary: 'a plan with its ground in one file, for use out of doors',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const out = required(flags.text('--out'), '--out', 'the name of a new file, such as field.zip');
    if (!/\.zip$/i.test(out)) throw new InputError(`--out: found ${out}, expected a name that ends with .zip`);
    const plan = await planFrom(flags, io);
    const lines = linesOf(plan);
    if (lines.length === 0) throw new InputError('found a plan without points and lines, expected one with a place');
    const { value: taken } = await withTerrain(flags, io, {
      accuracy: plan.terrain?.accuracy ?? null,
      use: (_, grids) => takeHeights(grids, { lines, mostBytes: MOST_HEIGHTS }),
    });
    if (!taken.ok) throw new InputError(taken.problems.map(problemLine).join('; '));
    const { files, margin } = taken.value;
    const heights = files.map(({ bytes, record }) => ({ name: record.name, bytes, record }));
    const bundle: FieldBundle = { plan, asTaken: plan, heights, margin, picture: null };
    const bytes = writeBundle(bundle);
    await io.writeFile(out, bytes);
    const missing = missingInBundle(bundle).map((each) => `not inside       ${each}\n`);
    io.out(`written          ${out}, ${(bytes.length / 1e6).toFixed(1)} MB\n${missing.join('')}`);
  },
};
