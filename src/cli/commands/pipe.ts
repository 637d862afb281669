import { roughnessOf } from '../../handbook/roughness.ts';
import { type FlowState, flowForHead, headLoss } from '../../hydraulics/head-loss.ts';
import type { PipeAbout } from '../../hydraulics/pipe-flow.ts';
import { WATER_TEMPERATURE, waterAt } from '../../hydraulics/water.ts';
import { DAY_S, LITRE_M3, MINUTE_S } from '../../units/factor.ts';
import type { QuantityKind } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FlagShape, type Flags, readFlags, required } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { InputError } from '../input/io.ts';

const USAGE = `rillwright pipe --bore BORE --length LENGTH (--head HEAD | --flow FLOW) [--temperature T] [--roughness E] [--k K] [--json]

What a full pipe carries for a head, or what head a flow loses in it (Darcy-Weisbach, Colebrook).

  --bore         inside diameter: 16mm, 0.622in, 1-1/4in
  --length       length along the pipe: 120m, 400ft
  --head         head to lose: 5m, 16ft. All of it goes into friction and K; nothing is kept for the speed at the
                 end, so count 1 in K for an open end and 0.5 for a square entrance
  --flow         flow: 12L/min, 3gal/min (US gallons)
  --temperature  of the water, 0 to 60 °C: 10C, 50F; 10 °C when not given
  --roughness    of the wall: 0.0015mm (PVC and polyethylene, when not given), 0.15mm (galvanised steel)
  --k            sum of the loss coefficients of fittings, entrance and exit; 0 when not given
  --json         the answer as JSON
`;

const SHAPES: Readonly<Record<string, FlagShape>> = {
  '--bore': 'value',
  '--length': 'value',
  '--head': 'value',
  '--flow': 'value',
  '--temperature': 'value',
  '--roughness': 'value',
  '--k': 'value',
  '--json': 'switch',
};

const USUAL_TEMPERATURE = 10;
/** Colebrook's law is known up to this roughness over bore. */
const ROUGHEST = 0.05;

export const command: Command = {
  name: 'pipe',
  summary: 'flow for a head, or head lost by a flow, in one pipe',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [stray] = flags.operands;
    if (stray !== undefined) throw new InputError(`found ${stray}, expected only flags such as --bore 16mm`);
    const answer = answerTo(flags, pipeFrom(flags));
    io.out(flags.has('--json') ? `${JSON.stringify(asJson(answer), null, 2)}\n` : asText(answer));
  },
};

function pipeFrom(flags: Flags): PipeAbout {
  const bore = required(above(flags, '--bore', 'bore'), '--bore', 'an inside diameter such as 16mm');
  const length = required(above(flags, '--length', 'length'), '--length', 'a length such as 120m');
  const roughness = notBelow(flags, '--roughness', 'bore') ?? roughnessOf('smooth-plastic').value;
  if (roughness > ROUGHEST * bore) {
    throw new InputError(`--roughness: found ${roughness / bore} of the bore, expected at most ${ROUGHEST}`);
  }
  return { bore, length, roughness, k: notBelow(flags, '--k', 'ratio') ?? 0, viscosity: waterFrom(flags).viscosity };
}

function waterFrom(flags: Flags): ReturnType<typeof waterAt> {
  const temperature = flags.quantity('--temperature', 'temperature') ?? USUAL_TEMPERATURE;
  const { least, most } = WATER_TEMPERATURE;
  if (temperature >= least && temperature <= most) return waterAt(temperature);
  throw new InputError(`--temperature: found ${flags.text('--temperature')}, expected ${least} to ${most} °C`);
}

function answerTo(flags: Flags, pipe: PipeAbout): FlowState {
  const head = notBelow(flags, '--head', 'height');
  const flow = notBelow(flags, '--flow', 'flow');
  if (head !== null && flow !== null) throw new InputError('found --head and --flow, expected one of them');
  if (head !== null) return flowForHead({ ...pipe, head });
  return headLoss({ ...pipe, flow: required(flow, '--head or --flow', 'one of them, such as --head 5m') });
}

function above(flags: Flags, flag: string, kind: QuantityKind): number | null {
  const value = flags.quantity(flag, kind);
  if (value === null || value > 0) return value;
  throw new InputError(`${flag}: found ${flags.text(flag)}, expected more than 0`);
}

function notBelow(flags: Flags, flag: string, kind: QuantityKind): number | null {
  const value = flags.quantity(flag, kind);
  if (value === null || value >= 0) return value;
  throw new InputError(`${flag}: found ${flags.text(flag)}, expected 0 or more`);
}

function asJson(state: FlowState): Record<string, number | null> {
  return {
    flow_L_per_min: (state.flow / LITRE_M3) * MINUTE_S,
    head_loss_m: state.headLoss,
    velocity_m_s: state.velocity,
    reynolds: state.reynolds,
    friction_factor: state.frictionFactor,
    friction_m: state.friction,
    local_loss_m: state.local,
  };
}

function asText(state: FlowState): string {
  const both = (value: number, kind: QuantityKind): string =>
    `${writeQuantity(value, kind, 'metric')} (${writeQuantity(value, kind, 'us')})`;
  const rows = [
    ['flow', both(state.flow, 'flow')],
    ['a day', both(state.flow * DAY_S, 'daily-volume')],
    ['head lost', both(state.headLoss, 'height')],
    ['velocity', both(state.velocity, 'velocity')],
    ['Reynolds number', state.reynolds.toFixed(0)],
    ['friction factor', state.frictionFactor === null ? 'none without flow' : state.frictionFactor.toPrecision(4)],
  ];
  return rows.map(([name = '', value]) => `${name.padEnd(16)} ${value}\n`).join('');
}
