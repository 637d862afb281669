import { boreArea } from '../../ram/cycle/ram-system.ts';
import { leastAir } from '../../ram/transient/air-chamber.ts';
import { usualReaches } from '../../ram/transient/transient-run.ts';
import { STANDARD_GRAVITY } from '../../units/factor.ts';
import { type CycleAnswer, lumpedAnswer, transientAnswer } from '../input/cycle-answer.ts';
import { type CycleFile, readCycleFile } from '../input/cycle-file.ts';
import { type FlagShape, readFlags } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { InputError } from '../input/io.ts';

const USAGE = `rillwright cycle FILE.json [--transient] [--json]

How a ram beats, what it takes and what it delivers, from its dimensions: in closed form, or by simulation of the pressure
waves. Not validated against a measured ram; reads optimistic.

The file is one object of numbers:
  bore_m, length_m, wave_speed_m_s   drive pipe
  fall_m, delivery_head_m            running level, and delivery head with its friction, above the waste valve
  darcy_factor                       friction factor f of the drive pipe
  k_entrance, k_bend, k_waste_valve, k_check_valve   loss coefficients on v²/2g in the drive pipe
  closure_ratio                      velocity when the waste valve has shut, as a share of the terminal velocity
  or valve_weight_head_m             weight of the waste valve as a head, with valve_stroke_m
and if wanted closing_time_s, check_lag_s (0 when not given), air_chamber_m3 (only with --transient; endless when not given)

  --transient    simulates 20 s or more by the method of characteristics
  --json         the answer as JSON
`;

const SHAPES: Readonly<Record<string, FlagShape>> = { '--transient': 'switch', '--json': 'switch' };

export const command: Command = {
  name: 'cycle',
  summary: 'beat, intake and delivery of a ram from its dimensions',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [path, stray] = flags.operands;
    if (path === undefined) throw new InputError('found no file, expected a JSON file such as ram.json');
    if (stray !== undefined) throw new InputError(`found ${stray}, expected one file`);
    const file = readCycleFile(path, await io.readText(path));
    const transient = flags.has('--transient');
    if (transient) requireSimulable(path, file);
    const answer = transient ? transientAnswer(file) : lumpedAnswer(file);
    io.out(flags.has('--json') ? `${JSON.stringify(answer, null, 2)}\n` : asText(answer));
  },
};

function requireSimulable(path: string, file: CycleFile): void {
  const { ram, airChamber, deliveryHead } = file;
  if (!(ram.checkValveLoss > 0)) {
    throw new InputError(`${path}: k_check_valve: found 0, expected more than 0 for --transient`);
  }
  const timeStep = ram.length / ram.waveSpeed / usualReaches;
  const impedance = ram.waveSpeed / STANDARD_GRAVITY;
  const least = leastAir({ deliveryHead, area: boreArea(ram.bore), impedance, timeStep });
  if (airChamber !== null && airChamber < least) {
    const expected = `at least ${Number(least.toPrecision(3))} for this drive pipe and head`;
    throw new InputError(`${path}: air_chamber_m3: found ${airChamber}, expected ${expected}`);
  }
}

const LINES: readonly (readonly [keyof CycleAnswer, string, string])[] = [
  ['beats_per_min', 'beats', 'a minute'],
  ['drive_flow_L_per_min', 'takes', 'L/min'],
  ['delivery_L_per_min', 'delivers', 'L/min'],
  ['efficiency_dAubuisson', "efficiency by D'Aubuisson", ''],
  ['efficiency_Rankine', 'efficiency by Rankine', ''],
  ['highest_head_m', 'highest head at the pump', 'm'],
  ['shut_velocity_m_s', 'velocity when the waste valve shuts', 'm/s'],
];

/** Digits shown; the model knows no more. */
const DIGITS = 4;

function asText(answer: CycleAnswer): string {
  const first = answer.runs ? 'runs' : `does not run: ${answer.stops_because?.replaceAll('-', ' ')}`;
  const lines = LINES.flatMap(([key, label, unit]) => {
    const value = answer[key];
    return typeof value === 'number'
      ? [`  ${label.padEnd(36)} ${Number(value.toPrecision(DIGITS))} ${unit}`.trimEnd()]
      : [];
  });
  return `${first}\n${lines.join('\n')}\n${answer.note}\n`;
}
