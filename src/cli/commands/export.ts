import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import {
  EXPORT_FORMATS,
  type ExportedFile,
  exportedFile,
  exportedProfile,
  type TableFormat,
} from '../../report/exchange/exported-file.ts';
import type { ProfileSource } from '../../report/profile/profile-of-plan.ts';
import { type WaterWay, waterWays, wayFor } from '../../report/tables/water-ways.ts';
import { type Flags, readFlags, required } from '../input/flags.ts';
import type { Command, CommandIo } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import { hasTerrain, TERRAIN_SHAPES, TERRAIN_USAGE, warnOfGuesses, withTerrain } from '../input/terrain-files.ts';

const USAGE = `rillwright export PLAN --format FORMAT [--dem FILE…] [--route ID] [--units metric|us]

A plan in another form, on standard output. Heights, flows and pressures are empty without an elevation file; tanks and
profile need one.

  --format       gpx, points-csv, lines-csv, tanks-csv or profile-svg
  --route        id of the line whose profile is drawn; the first whole way of the water when not given
  --units        metric or us, for tables and profile; the plan's own when not given
${TERRAIN_USAGE}`;

const SHAPES = { ...TERRAIN_SHAPES, '--format': 'value', '--route': 'value', '--units': 'value' } as const;

const FORMATS = [...Object.keys(EXPORT_FORMATS), 'profile-svg'].join(', ');

export const command: Command = {
  name: 'export',
  summary: 'a plan as GPX, CSV, or its profile as SVG',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const format = formatFrom(flags);
    if (format !== 'profile-svg' && flags.has('--route')) {
      throw new InputError(`--route: found it with ${format}, expected it with profile-svg only`);
    }
    const plan = await planFrom(flags, io);
    const file =
      format === 'profile-svg' ? await profileFile(plan, flags, io) : await tableFile(plan, format, { flags, io });
    io.out(file.text);
  },
};

function formatFrom(flags: Flags): TableFormat | 'profile-svg' {
  const text = required(flags.text('--format'), '--format', FORMATS);
  if (text === 'profile-svg' || isTable(text)) return text;
  throw new InputError(`--format: found ${text}, expected ${FORMATS}`);
}

function isTable(text: string): text is TableFormat {
  return Object.hasOwn(EXPORT_FORMATS, text);
}

interface CommandLine {
  readonly flags: Flags;
  readonly io: CommandIo;
}

async function tableFile(plan: Plan, format: TableFormat, { flags, io }: CommandLine): Promise<ExportedFile> {
  const units = unitsFrom(flags) ?? plan.units;
  if (!EXPORT_FORMATS[format].needsGround && !hasTerrain(flags)) {
    return exportedFile(format, { plan, evaluation: null, units });
  }
  const { evaluation } = await sourceOf(plan, flags, io);
  return exportedFile(format, { plan, evaluation, units });
}

async function profileFile(plan: Plan, flags: Flags, io: CommandIo): Promise<ExportedFile> {
  const way = wayFrom(plan, flags);
  const file = exportedProfile(await sourceOf(plan, flags, io), way, unitsFrom(flags) ?? plan.units);
  if (file === null) throw new InputError('found no height along the line, expected an elevation file that covers it');
  return file;
}

function wayFrom(plan: Plan, flags: Flags): WaterWay {
  const id = flags.text('--route');
  const way =
    id === null ? wayFor(plan, { chosen: null, lookedAt: null }) : waterWays(plan).find((way) => way.id === id);
  if (way) return way;
  const known = plan.routes.map((route) => route.id).join(', ') || 'none';
  throw new InputError(`--route: found ${id ?? 'no line in the plan'}, expected a line of the plan: ${known}`);
}

async function sourceOf(plan: Plan, flags: Flags, io: CommandIo): Promise<ProfileSource> {
  const { value, terrain } = await withTerrain(flags, io, {
    accuracy: plan.terrain?.accuracy ?? null,
    use: async (terrain) => {
      const ground = await groundOfPlan(plan, terrain);
      const { points, lines, accuracy } = ground;
      return { plan, evaluation: evaluateAtRest(plan, ground), points, lines, accuracy };
    },
  });
  warnOfGuesses(terrain, plan.units, io);
  return value;
}
