import { diagnose, drawsFor } from '../../diagnosis/diagnose.ts';
import { fieldOfPlan, latestRecord } from '../../diagnosis/model/field-of-plan.ts';
import { type FieldRam, guessedDelivery, soundLine } from '../../diagnosis/model/field-ram.ts';
import type { Readings } from '../../diagnosis/model/readings.ts';
import { priorsOfPlan } from '../../diagnosis/ranking/priors-of-plan.ts';
import type { Priors } from '../../diagnosis/ranking/ranking.ts';
import { CAUSE_NAMES, chanceFigure, chanceWords } from '../../diagnosis/words/cause-names.ts';
import { MISSING, TEST_WORDS } from '../../diagnosis/words/test-words.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import { soundRam } from '../../ram/cycle/ram-faults.ts';
import { balancedWeight, terminalVelocity } from '../../ram/cycle/ram-system.ts';
import { weightForRatio } from '../../ram/cycle/valve-setting.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { type CycleFile, RAM_KEYS, readCycleFile, refusal } from '../input/cycle-file.ts';
import { type DiagnosisAnswer, diagnosisAnswer } from '../input/diagnosis-answer.ts';
import { type Flags, readFlags, required } from '../input/flags.ts';
import { type Command, type CommandIo, InputError } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import { readReadingsFile } from '../input/readings-file.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, warnOfGuesses, withTerrain } from '../input/terrain-files.ts';

/** Roughness of the delivery line, m: polyethylene. The file does not ask for it. */
const SMOOTH = 1.5e-6;
/** Temperature of its water, °C. */
const COLD = 10;
/** Entrance and exit. */
const LOCAL = 1.5;

/** A ram in the field from its file; the delivery head's friction is taken off where the line is given. */
function fieldOfFile(name: string, file: CycleFile): FieldRam {
  const { ram, fall, deliveryHead, airChamber } = file;
  if (!(deliveryHead > fall)) {
    throw refusal(name, 'delivery_head_m', String(deliveryHead), `more than the fall of ${fall}`);
  }
  const closing = closingOf(name, file);
  const loss = lossOf(file);
  const field: FieldRam = {
    ram,
    closing,
    faults: soundRam,
    fall,
    lift: deliveryHead,
    airChamber,
    line: soundLine(loss),
    usualDelivery: 0,
  };
  // The head was given with its friction, so what is delivered at that head tells the friction.
  const friction = loss(guessedDelivery({ ...field, line: soundLine(() => 0) }));
  const lifted = { ...field, lift: Math.max((fall + deliveryHead) / 2, deliveryHead - friction) };
  return { ...lifted, usualDelivery: guessedDelivery(lifted) };
}

function lossOf({ line }: CycleFile): (flow: number) => number {
  if (line === null) return () => 0;
  const pipe = pipeFlow({ ...line, roughness: SMOOTH, k: LOCAL, viscosity: waterAt(COLD).viscosity });
  return (flow) => pipe.headLoss(flow);
}

function closingOf(name: string, file: CycleFile): FieldRam['closing'] {
  const { ram, fall, closureRatio, weightHead, stroke, closingTime } = file;
  const moves = stroke !== null && closingTime === null;
  if (weightHead !== null) {
    return moves
      ? { kind: 'stroke', weightHead, stroke }
      : { kind: 'weight', weightHead, closingTime: closingTime ?? 0 };
  }
  const ratio = closureRatio ?? 0;
  if (!moves) {
    const balanced = balancedWeight(ram, ratio * terminalVelocity(ram, fall));
    return { kind: 'weight', weightHead: balanced, closingTime: closingTime ?? 0 };
  }
  const found = weightForRatio(ram, file, ratio, stroke);
  if (found === null) throw refusal(name, 'closure_ratio', String(ratio), 'a ratio that this stroke can shut at');
  return { kind: 'stroke', weightHead: found, stroke };
}

const USAGE = `rillwright diagnose PLAN --dem FILE… --readings FILE.json [--units metric|us] [--json]
rillwright diagnose --ram FILE.json --readings FILE.json [--units metric|us] [--json]

A ram that runs no more, or brings too little: the causes in order with their chance, each with what it would do to the
readings and what to do about it, and the reading or test that tells the first causes apart best for its minutes of work.
The signatures are a model's; compare docs/diagnosis.md.

${TERRAIN_USAGE}  --ram          without a plan: the ram as for the command cycle, and if wanted delivery_length_m with delivery_bore_m
  --readings     {"record": R or null, "now": R}: readings of this ram when it ran well, and now. Every key of R is optional:
                 state (runs, stopped-open, stopped-shut), beats_per_min, waste_L_per_min, delivery_L_per_min,
                 delivery_read_at (pump, tank; tank when not given), delivery_at_tank_L_per_min (a second bucket),
                 gauge_running_m, gauge_rest_m, gauge_swing_m, level_m, tail_water_m (over the waste valve's outlet),
                 trickle_at_rest_L_per_min, drip_at_body_L_per_min, pour_L_per_min, backflow_L_per_min,
                 beats_after_flush_per_min, jitter, stopped_after_s, runs_throttled, line_holds (true or false),
                 signs (knocks, spits-air, irregular-beat, standpipe-spills, standpipe-sinks, drips-at-body,
                 trickles-at-rest)
                 With a plan, its latest record stands for a record that is null
  --units        metric or us, for the sentences; the plan's own, or metric, when not given
  --json         the answer as JSON, in the units that its keys name
`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  '--ram': 'value',
  '--readings': 'value',
  '--units': 'value',
  '--json': 'switch',
} as const;

export const command: Command = {
  name: 'diagnose',
  summary: 'why a ram runs no more or brings too little, and what to read next',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const { field, priors, units, latest } = await subjectOf(flags, io);
    const path = required(flags.text('--readings'), '--readings', 'a JSON file of readings');
    const { record: given, now, readAt } = readReadingsFile(path, await io.readText(path));
    const record = given ?? latest;
    const found = diagnose(drawsFor(field, record), { record, now, priors });
    const answer = diagnosisAnswer(found, readAt, units);
    io.out(flags.has('--json') ? `${JSON.stringify(answer, null, 2)}\n` : asText(answer));
  },
};

interface Subject {
  readonly field: FieldRam;
  readonly priors: Priors;
  readonly units: UnitSystem;
  /** The plan's own latest record. */
  readonly latest: Readings | null;
}

async function subjectOf(flags: Flags, io: CommandIo): Promise<Subject> {
  const path = flags.text('--ram');
  if (path === null) return subjectOfPlan(flags, io);
  if (flags.operands.length > 0) throw new InputError(`found ${flags.operands[0]}, expected --ram or a plan, not both`);
  const file = readCycleFile(path, await io.readText(path), RAM_KEYS);
  return { field: fieldOfFile(path, file), priors: {}, units: unitsFrom(flags) ?? 'metric', latest: null };
}

async function subjectOfPlan(flags: Flags, io: CommandIo): Promise<Subject> {
  const plan = await planFrom(flags, io);
  const { value: found, terrain: opened } = await withTerrain(flags, io, {
    accuracy: plan.terrain?.accuracy ?? null,
    use: async (terrain) => fieldOfPlan(plan, await groundOfPlan(plan, terrain)),
  });
  warnOfGuesses(opened, unitsFrom(flags) ?? plan.units, io);
  if (!found.ok)
    throw new InputError(`found ${MISSING[found.because].found}, expected ${MISSING[found.because].expected}`);
  return {
    field: found.field,
    priors: priorsOfPlan(found.findings),
    units: unitsFrom(flags) ?? plan.units,
    latest: latestRecord(plan),
  };
}

/** Causes and tests that the text names. */
const SHOWN = 3;

function asText({ causes, next, note }: DiagnosisAnswer): string {
  const first = causes
    .slice(0, SHOWN)
    .flatMap(({ code, chance, remedy }, i) => [
      `${i + 1}. ${CAUSE_NAMES[code]}: ${chanceWords(chance)} (${chanceFigure(chance)})`,
      `   ${remedy}`,
    ]);
  const other = causes.find(({ code }) => code === 'something-else');
  const rest = other === undefined ? [] : [`Something else: ${chanceFigure(other.chance)}`];
  const tests = next
    .slice(0, SHOWN)
    .map(({ test, minutes, bits }) => `  ${TEST_WORDS[test]} (${minutes} min, ${bits.toFixed(2)} bits)`);
  const todo =
    tests.length === 0 ? ['Nothing further to read would tell much.'] : ['What to read or do next:', ...tests];
  return `${[...first, ...rest, '', ...todo, '', note].join('\n')}\n`;
}
