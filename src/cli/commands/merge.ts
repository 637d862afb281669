import { type FieldChange, fieldChanges, type Returned, takeChanges } from '../../plan/exchange/field-changes.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { fieldChangeWords } from '../../report/exchange/field-change-words.ts';
import { bundleAt } from '../input/bundle-operand.ts';
import { type Flags, readFlags } from '../input/flags.ts';
import type { Command, CommandIo } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { planAt, unitsFrom } from '../input/plan-operand.ts';
import { problemLine } from '../input/problem-line.ts';

const USAGE = `rillwright merge HOME BACK [--as-taken PLAN] [--take all|1,3,…] [--out FILE]

What was changed out of doors, one line a change: readings, records, levels, points that were moved, lines. BACK is the file
that came back, or a plan. Without --take nothing is changed. What was changed at home, too, is said beside it.

  --as-taken     the plan as it was taken along, where BACK is a plan; the plan at home when not given
  --take         all, or the numbers of the lines to take; the merged plan goes to --out or to standard output
  --out          a new file for the merged plan
  --units        metric or us, for the list; the plan's own when not given
  --json         the list as JSON
`;

const SHAPES = {
  '--as-taken': 'value',
  '--take': 'value',
  '--out': 'value',
  '--units': 'value',
  '--json': 'switch',
} as const;

export const command: Command = {
  name: 'merge',
  summary: 'what came back from out of doors, each change taken or left',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [at, from, stray] = flags.operands;
    if (at === undefined || from === undefined || stray !== undefined) {
      throw new InputError(
        `found ${flags.operands.length} files, expected the plan at home and the one that came back`,
      );
    }
    const home = await planAt(at, io);
    const back = await returned(from, home, flags, io);
    const changes = fieldChanges(home, back);
    const units = unitsFrom(flags) ?? home.units;
    const chosen = chosenFrom(flags, changes);
    const lines = changes.map((change) => fieldChangeWords(change, back.plan, units));
    if (chosen === null) return io.out(flags.has('--json') ? asJson(changes, lines) : asText(lines));
    const made = takeChanges(home, back.plan, chosen);
    if (!made.ok) throw new InputError(made.problems.map(problemLine).join('; '));
    const text = writePlan(made.value.plan);
    const out = flags.text('--out');
    if (out === null) return io.out(text);
    await io.writeFile(out, new TextEncoder().encode(text));
    io.out(`written ${out}: ${chosen.length} of ${changes.length} changes taken\n`);
  },
};

async function returned(path: string, home: Plan, flags: Flags, io: CommandIo): Promise<Returned> {
  const before = flags.text('--as-taken');
  const asTaken = before === null ? null : await planAt(before, io);
  const bundle = await bundleAt(path, io);
  if (bundle !== null) return { asTaken: asTaken ?? bundle.asTaken, plan: bundle.plan };
  return { asTaken: asTaken ?? home, plan: await planAt(path, io) };
}

/** Null where nothing is to be taken yet. */
function chosenFrom(flags: Flags, changes: readonly FieldChange[]): readonly FieldChange[] | null {
  const text = flags.text('--take');
  if (text === null) return null;
  if (text === 'all') return changes;
  const numbers = new Set(text.split(',').map(Number));
  const wrong = [...numbers].find((number) => !Number.isInteger(number) || number < 1 || number > changes.length);
  if (wrong === undefined) return changes.filter((_, k) => numbers.has(k + 1));
  throw new InputError(`--take: found ${text}, expected all or numbers from 1 to ${changes.length}`);
}

const asText = (lines: readonly string[]): string =>
  lines.length === 0
    ? 'Nothing came back that is not so at home.\n'
    : lines.map((line, k) => `${String(k + 1).padStart(3)}  ${line}\n`).join('');

function asJson(changes: readonly FieldChange[], lines: readonly string[]): string {
  const rows = changes.map(({ kind, key, clash }, k) => ({ number: k + 1, kind, key, clash, says: lines[k] }));
  return `${JSON.stringify({ changes: rows }, null, 2)}\n`;
}
