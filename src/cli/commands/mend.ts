import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import { type Mended, mend } from '../../evaluation/mending/mend.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { answerSentence } from '../../report/findings/answer-words.ts';
import { changeWords, LEFT_WORDS, remedyWords } from '../../report/findings/change-words.ts';
import { findingTitle } from '../../report/findings/finding-words.ts';
import { assessmentJson } from '../../report/tables/assessment-json.ts';
import { nameOf } from '../../report/words/measure-words.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { readFlags } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';

const USAGE = `rillwright mend PLAN --dem FILE… [--out FILE] [--units metric|us] [--json]

Takes the remedies of what fails one after the other, each judged on the whole plan, and writes the plan that comes of it to
standard output. What was done, and what is left and why, goes to standard error. The file of the plan stays as it is.

${TERRAIN_USAGE}  --out          a new file to write the plan to; what was done then goes to standard output
  --units        metric or us, for the text; the plan's own when not given
  --json         steps, what is left, the answer before and after and the plan, as JSON
`;

const SHAPES = { ...TERRAIN_SHAPES, '--out': 'value', '--units': 'value', '--json': 'switch' } as const;

interface Outcome {
  readonly mended: Mended;
  readonly before: Evaluation;
  readonly after: Evaluation;
}

export const command: Command = {
  name: 'mend',
  summary: 'a plan with its remedies taken',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const plan = await planFrom(flags, io);
    const units = unitsFrom(flags) ?? plan.units;
    const { value } = await withTerrain(flags, io, {
      accuracy: plan.terrain?.accuracy ?? null,
      use: async (terrain): Promise<Outcome> => {
        const ground = await groundOfPlan(plan, terrain);
        const mended = await mend({ plan, ground }, (moved) => groundOfPlan(moved, terrain));
        const { standing } = mended;
        return {
          mended,
          before: evaluateAtRest(plan, ground),
          after: evaluateAtRest(standing.plan, standing.ground),
        };
      },
    });
    const text = writePlan(value.mended.standing.plan);
    const path = flags.text('--out');
    if (path !== null) await io.writeFile(path, new TextEncoder().encode(text));
    if (flags.has('--json')) return io.out(`${JSON.stringify(jsonOf(plan, value, units), null, 2)}\n`);
    const said = saidOf(plan, value, units);
    if (path === null) {
      io.out(text);
      io.err(said);
    } else io.out(said);
  },
};

function saidOf(plan: Plan, { mended, before, after }: Outcome, units: UnitSystem): string {
  const now = { ...mended.standing.plan, units };
  const steps = mended.steps.map((step, i) => `  ${i + 1}. ${remedyWords(step, now, units)}\n`);
  const left = mended.left.map(
    ({ finding, because }) => `  ${findingTitle(finding)} (${nameOf(now, finding.about)}): ${LEFT_WORDS[because]}\n`,
  );
  return [
    `Before: ${answerSentence(before.answer, { ...plan, units })}\n`,
    steps.length === 0 ? 'Nothing was changed.\n' : `Done\n${steps.join('')}`,
    left.length === 0 ? '' : `Left\n${left.join('')}`,
    `After: ${answerSentence(after.answer, now)}\n`,
  ].join('');
}

function jsonOf(plan: Plan, { mended, before, after }: Outcome, units: UnitSystem): unknown {
  const now = mended.standing.plan;
  const answer = (of: Plan, evaluation: Evaluation) =>
    (assessmentJson(of, evaluation) as { readonly answer: unknown }).answer;
  return {
    format: 'rillwright/mended',
    version: 1,
    before: answer(plan, before),
    steps: mended.steps.map((step) => ({
      finding: step.finding.code,
      about: step.finding.about,
      changes: step.changes.map((each) => ({ kind: each.kind, about: each.about, facts: each.facts })),
      says: step.changes.map((each) => changeWords(each, now, units)),
    })),
    left: mended.left.map(({ finding, because }) => ({ finding: finding.code, about: finding.about, because })),
    after: answer(now, after),
    plan: JSON.parse(writePlan(now)),
  };
}
