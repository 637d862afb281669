import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { assessmentJson } from '../../report/tables/assessment-json.ts';
import { assessmentText } from '../../report/tables/assessment-text.ts';
import { flattenedSentences } from '../../report/words/flattened-words.ts';
import { readFlags } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import {
  TERRAIN_SHAPES,
  TERRAIN_USAGE,
  terrainOf,
  terrainText,
  warnOfGuesses,
  withTerrain,
} from '../input/terrain-files.ts';

const USAGE = `rillwright assess PLAN --dem FILE… [--units metric|us] [--json]

What a plan comes to on its ground: fall, lift, flows with their spread, what holds, what fails and what to measure first.
Low, likely and high are the 10th, 50th and 90th percentile.

${TERRAIN_USAGE}  --units        metric or us, for the text; the plan's own when not given
  --json         the answer as JSON, in the units that its keys name
`;

const SHAPES = { ...TERRAIN_SHAPES, '--units': 'value', '--json': 'switch' } as const;

export const command: Command = {
  name: 'assess',
  summary: 'what a plan comes to on its ground',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const plan = await planFrom(flags, io);
    const units = unitsFrom(flags) ?? plan.units;
    const { value, terrain } = await withTerrain(flags, io, {
      accuracy: plan.terrain?.accuracy ?? null,
      use: async (terrain) => {
        const ground = await groundOfPlan(plan, terrain);
        return { ground, evaluation: evaluateAtRest(plan, ground) };
      },
    });
    const { ground, evaluation } = value;
    const ofLines = [...ground.lines.values()].flatMap((line) => line.notes ?? []);
    warnOfGuesses(terrain, units, io);
    if (flags.has('--json')) io.out(jsonOf(plan, evaluation, terrainOf(terrain, ofLines)));
    else {
      const flattened = flattenedSentences(plan, ground.points, units).map((sentence) => `  ${sentence}\n`);
      io.out([assessmentText(plan, evaluation, units), terrainText(terrain, units, ofLines), ...flattened].join(''));
    }
  },
};

function jsonOf(plan: Plan, evaluation: Evaluation, terrain: unknown): string {
  return `${JSON.stringify({ ...assessmentJson(plan, evaluation), terrain }, null, 2)}\n`;
}
