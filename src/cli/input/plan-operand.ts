import { readPlan } from '../../plan/file/read-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { Flags } from './flags.ts';
import type { CommandIo } from './io.ts';
import { InputError } from './io.ts';
import { planWithFlags, problemLine } from './terrain-files.ts';

/** The plan of the one file that a command is about, with what the flags say of the heights' accuracy. */
export async function planFrom(flags: Flags, io: CommandIo): Promise<Plan> {
  const path = onlyOperand(flags, 'plan', 'a plan file');
  const plan = readPlan(await io.readText(path));
  if (plan.ok) return planWithFlags(plan.value, flags);
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
