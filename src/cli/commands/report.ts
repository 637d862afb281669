import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { FigureNode } from '../../report/figure/figure-node.ts';
import { engineerAppendix } from '../../report/print/engineer-appendix.ts';
import { htmlPage } from '../../report/print/html-text.ts';
import { ownerReport } from '../../report/print/owner-report.ts';
import type { PrintSource } from '../../report/print/print-source.ts';
import style from '../../report/print/report.css?raw';
import { visitSheet } from '../../report/print/visit-sheet.ts';
import { PROGRAM_ABOUT } from '../../report/words/safe-file-name.ts';
import { isAddress } from '../../terrain/bytes/address-name.ts';
import { type Flags, readFlags } from '../input/flags.ts';
import type { Command, CommandIo } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import { hasTerrain, TERRAIN_SHAPES, TERRAIN_USAGE, warnOfGuesses, withTerrain } from '../input/terrain-files.ts';

const USAGE = `rillwright report PLAN [--dem FILE…] [--sheet owner|engineer|visit] [--units metric|us] [--date DAY] [--planner ADDRESS]

A report of a plan as one HTML file for printing, on standard output: no script in it and nothing to fetch.

  --sheet        owner: two pages to hand over (the usual one);
                 engineer: the appendix with everything behind them;
                 visit: what to take along and fill in on site
  --units        metric or us; the plan's own when not given
  --planner      address at which the planner is, for a code on the visit sheet that opens the plan there
  --date         day to print on it, such as 2026-05-31; today when not given
${TERRAIN_USAGE}`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  '--units': 'value',
  '--sheet': 'value',
  '--date': 'value',
  '--planner': 'value',
} as const;

const SHEETS: Readonly<Record<string, { readonly title: string; readonly make: (source: PrintSource) => FigureNode }>> =
  {
    owner: { title: 'Report', make: ownerReport },
    engineer: { title: 'Engineer’s appendix', make: engineerAppendix },
    visit: { title: 'Site visit sheet', make: visitSheet },
  };

export const command: Command = {
  name: 'report',
  summary: 'a report, its appendix or a site visit sheet of a plan, for printing',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const sheet = sheetFrom(flags);
    const units = unitsFrom(flags);
    const date = dateFrom(flags);
    const planner = plannerFrom(flags);
    const plan = await planFrom(flags, io);
    const source = {
      plan,
      units: units ?? plan.units,
      contours: [],
      program: PROGRAM_ABOUT,
      date,
      ...(planner === null ? {} : { planner }),
    };
    const site = await siteFrom(plan, flags, io);
    io.out(htmlPage(sheet.make({ ...source, site }), { title: `${sheet.title}: ${plan.name}`, style }));
  },
};

/** The plan on its ground; null when no elevation file was named: an unfinished plan prints too. */
async function siteFrom(plan: Plan, flags: Flags, io: CommandIo): Promise<PrintSource['site']> {
  if (!hasTerrain(flags)) return null;
  const { value, terrain } = await withTerrain(flags, io, {
    accuracy: plan.terrain?.accuracy ?? null,
    use: async (terrain) => {
      const ground = await groundOfPlan(plan, terrain);
      return { ground, about: terrain.about, evaluation: evaluateAtRest(plan, ground) };
    },
  });
  warnOfGuesses(terrain, plan.units, io);
  return value;
}

function sheetFrom(flags: Flags) {
  const name = flags.text('--sheet') ?? 'owner';
  const sheet = Object.hasOwn(SHEETS, name) ? SHEETS[name] : undefined;
  if (sheet !== undefined) return sheet;
  throw new InputError(`--sheet: found ${name}, expected ${Object.keys(SHEETS).join(' or ')}`);
}

function plannerFrom(flags: Flags): string | null {
  const address = flags.text('--planner');
  if (address === null || (isAddress(address) && !/[?#]/.test(address))) return address;
  throw new InputError(`--planner: found ${address}, expected an address such as https://example.org/planner/`);
}

function dateFrom(flags: Flags): string {
  const day = flags.text('--date');
  if (day === null) return dayOf(Date.now());
  if (/^\d{4}-\d{2}-\d{2}$/.test(day) && dayOf(Date.parse(day)) === day) return day;
  throw new InputError(`--date: found ${day}, expected a day such as 2026-05-31`);
}

/** The day of a time; empty where there is none, as for 30 February. */
function dayOf(time: number): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 10);
}
