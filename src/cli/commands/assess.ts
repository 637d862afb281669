import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan, PointId } from '../../plan/model/plan.ts';
import { assessmentJson } from '../../report/tables/assessment-json.ts';
import { assessmentText } from '../../report/tables/assessment-text.ts';
import { nameOf } from '../../report/words/measure-words.ts';
import type { GroundPoint } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
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

/**
 * What was taken off heights that the file's cells flatten, a sentence a point with its direction and how far it may be off;
 * amounts that round to nothing are left out.
 */
function flattenedSentences(
  plan: Plan,
  points: ReadonlyMap<PointId, GroundPoint>,
  units: UnitSystem,
): readonly string[] {
  const height = (value: number): string => writeQuantity(Math.abs(value), 'height', units);
  return plan.points.flatMap(({ id }) => {
    const { smoothing = 0, averagingSpread } = points.get(id) ?? {};
    if (averagingSpread === undefined || height(smoothing) === height(0)) return [];
    const side = smoothing > 0 ? 'high' : 'low';
    return [
      `${nameOf(plan, id)}: the file’s cells make the ground read some ${height(smoothing)} too ${side} there (standard deviation ${height(averagingSpread)}); that is reckoned with. Level it on site where a lift hangs on it.`,
    ];
  });
}
