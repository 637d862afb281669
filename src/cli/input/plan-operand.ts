import { readPlan } from '../../plan/file/read-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { bundleAt } from './bundle-operand.ts';
import type { Flags } from './flags.ts';
import type { CommandIo } from './io.ts';
import { InputError } from './io.ts';
import { problemLine } from './problem-line.ts';
import { planWithFlags } from './terrain-files.ts';

/** The plan of the one file that a command is about, with what the flags say of the heights' accuracy. */
export async function planFrom(flags: Flags, io: CommandIo): Promise<Plan> {
  const path = onlyOperand(flags, 'plan', 'a plan file');
  return planWithFlags(await planAt(path, io), flags);
}

/** The plan in a plan file, or in a file that was made for use out of doors. */
export async function planAt(path: string, io: CommandIo): Promise<Plan> {
  const bundle = await bundleAt(path, io);
  if (bundle !== null) return bundle.plan;
  const plan = readPlan(await io.readText(path));
  if (plan.ok) return plan.value;
  throw new InputError(`${path}: ${plan.problems.map(problemLine).join('; ')}`);
}

/** The one operand of a command. */
export function onlyOperand(flags: Flags, what: string, expected: string): string {
  const [path, stray] = flags.operands;
  if (path === undefined) throw new InputError(`found no ${what}, expected ${expected}`);
  if (stray !== undefined) throw new InputError(`found ${stray}, expected one ${what}`);
  return path;
}

/** What `--units` says; null when it was not given. */
export function unitsFrom(flags: Flags): UnitSystem | null {
  const text = flags.text('--units');
  if (text === null || text === 'metric' || text === 'us') return text;
  throw new InputError(`--units: found ${text}, expected metric or us`);
}
