import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { type Clip, clipElevation } from '../../terrain/clip/clip-elevation.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { readFlags, required } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { planFrom } from '../input/plan-operand.ts';
import { problemLine } from '../input/problem-line.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';

const USUAL_MARGIN_M = 100;

const USAGE = `rillwright clip PLAN --dem FILE… --out FILE.tif [--margin 100m]

The elevation under a plan as a small GeoTIFF of its own: the same cells and heights, in the file's own coordinates, with its
unit, its zero and its "no height". For a colleague, or for a device that cannot hold the whole file. Of several elevation
models the finest that covers the whole plan is taken.

  --out          the new file
  --margin       how far beyond the plan's points and lines to go; ${USUAL_MARGIN_M} m when not given
${TERRAIN_USAGE}`;

const SHAPES = { ...TERRAIN_SHAPES, '--out': 'value', '--margin': 'value' } as const;

export const command: Command = {
  name: 'clip',
  summary: 'the elevation under a plan as a small GeoTIFF',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const out = required(flags.text('--out'), '--out', 'the name of a new file, such as clip.tif');
    const margin = flags.quantity('--margin', 'length') ?? USUAL_MARGIN_M;
    if (margin < 0) throw new InputError(`--margin: found ${margin} m, expected 0 m or more`);
    const plan = await planFrom(flags, io);
    const around = placesOf(plan);
    if (around.length === 0) throw new InputError('found a plan without points and lines, expected one with a place');
    const { value: clip } = await withTerrain(flags, io, {
      accuracy: plan.terrain?.accuracy ?? null,
      use: (_, grids) => clipElevation(grids, { around, margin }),
    });
    if (!clip.ok) throw new InputError(clip.problems.map(problemLine).join('; '));
    await io.writeFile(out, new Uint8Array(clip.value.bytes));
    io.out(asText(out, clip.value));
  },
};

function placesOf(plan: Plan): Position[] {
  return [...plan.points.map(({ position }) => position), ...plan.routes.flatMap(({ vertices }) => vertices)];
}

function asText(out: string, clip: Clip): string {
  const size = (value: number) => writeQuantity(value, 'length', 'metric');
  const rows = [
    ['written', out],
    ['from', clip.files.join(', ')],
    ['cells', `${clip.columns} × ${clip.rows}, each ${size(clip.cell.width)} × ${size(clip.cell.height)}`],
    ['coordinates', clip.crs],
    ['heights in', `${clip.unit}${clip.unitIsStated ? '' : ', which no file states'}`],
    ['above', clip.datum ?? 'a zero that no file states'],
    ['without height', `${clip.voids} cells, written as ${clip.noData}`],
  ];
  return rows.map(([name = '', value = '']) => `${name.padEnd(16)} ${value}\n`).join('');
}
