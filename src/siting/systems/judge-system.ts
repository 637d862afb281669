import { evaluate, type Ground } from '../../evaluation/evaluate/evaluate.ts';
import { materialNeeds } from '../../evaluation/evaluate/materials.ts';
import { sheetOfSize } from '../../evaluation/evaluate/pump-catalogue.ts';
import { pumpSizes } from '../../evaluation/evaluate/pump-sizes.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { worst } from '../../evaluation/statistics/compare.ts';
import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import { distanceBetween } from '../../geodesy/geodesic.ts';
import type { PipeRow } from '../../handbook/pipe-rows.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { Plan, PlanPipe, PumpChoice } from '../../plan/model/plan.ts';
import { driveLengths } from '../../ram/cycle/drive-length.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import { standpipeHeight } from './system-lines.ts';
import { asPlanPipe, deliveryPipes, drivePipeFor, type SystemLines, supplyPipes, systemPlan } from './system-plan.ts';

/** A whole system with what the planner's own evaluation makes of it. */
export interface JudgedSystem {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly evaluation: Evaluation;
  readonly delivery: Estimate;
  /** Metres of pipe to lay. */
  readonly pipe: Metres;
  /** Sum of what has a price; null where nothing has. */
  readonly cost: number | null;
  readonly runs: Verdict;
  readonly arrives: Verdict;
}

/** Whether a system runs and is safe, and whether enough arrives, from the evaluation's own answer and findings. */
export function answersOf({ answer, findings }: Evaluation): { readonly runs: Verdict; readonly arrives: Verdict } {
  const safety = findings.filter((f) => f.bears === 'safety').map((f) => f.verdict);
  const yields = findings.filter((f) => f.bears === 'yield').map((f) => f.verdict);
  return {
    runs: worst([answer.runs.verdict ?? 'measure', ...safety]),
    // Where no need is known, nothing says that too little arrives; what bears on the amount still counts.
    arrives: answer.arrives.verdict ?? worst(yields),
  };
}

export function judgeSystem(
  plan: Plan,
  ground: Ground,
  judged: Evaluation = evaluate(plan, ground),
): JudgedSystem | null {
  const delivery = judged.tanks[0]?.line?.deliveryPerDay;
  if (!delivery) return null;
  const { total } = materialNeeds(plan, judged);
  const pipe = judged.lines.reduce(
    (sum, line) => sum + line.slope * (line.role === 'drive' ? (plan.pump?.count ?? 1) : 1),
    0,
  );
  return { plan, ground, evaluation: judged, delivery, pipe, cost: total, ...answersOf(judged) };
}

/** Drive bores are first guessed at this mean velocity of the intake. Common practice, no source. */
const GUESS_VELOCITY = 0.3;

export function boreGuess(intake: CubicMetresPerSecond): Metres {
  return Math.sqrt((4 * intake) / (Math.PI * GUESS_VELOCITY));
}

/** What a supply pipe may lose of the fall while the pump takes its fill. Common practice, no source. */
const SUPPLY_SHARE = 0.06;
/** A supply pipe is at least so much wider than the drive pipe, so that it surely is a size wider. */
const SUPPLY_WIDER = 1.25;

/** The smallest supply pipe that is wider than the drive pipe and loses little of the fall. */
export function supplyPipeFor(
  plan: Plan,
  asked: { readonly bore: Metres; readonly flow: CubicMetresPerSecond; readonly fall: Metres; readonly length: Metres },
): PipeRow | null {
  const { viscosity } = waterAt(plan.waterTemperature);
  const rows = supplyPipes(plan).filter((row) => row.bore >= SUPPLY_WIDER * asked.bore);
  const loses = (row: PipeRow): Metres =>
    pipeFlow({
      bore: row.bore,
      roughness: row.roughness,
      length: Math.max(1, asked.length),
      k: 1.5,
      viscosity,
    }).headLoss(asked.flow);
  return rows.find((row) => loses(row) <= SUPPLY_SHARE * asked.fall) ?? rows.at(-1) ?? null;
}

/** Pumps to try on a site: the sizes that the planner's own table recommends; the user's own where there is one. */
export function pumpsFor(plan: Plan, ground: Ground): PumpChoice[] {
  const table = pumpSizes({ ...plan, pump: null }, ground);
  if (!table || table.answer.kind === 'none' || table.answer.kind === 'no-pump-needed') return [];
  const { size, kind } = table.answer;
  const suits = table.rows.filter((row) => row.verdict === 'suits' || row.verdict === 'leaves-water');
  // A drive pipe keeps its rules of length with some bores and not with others; those come first.
  const rows = suits.some((row) => row.lengthKeepsRules) ? suits.filter((row) => row.lengthKeepsRules) : suits;
  const first = rows.find((row) => row.size.nominal >= size.nominal) ?? rows.at(-1);
  const others = rows.filter((row) => row !== first).slice(0, 1);
  const two = kind === 'two-side-by-side' && first ? [sheetOfSize(first, 2)] : [];
  return [...two, ...[first, ...others].map((row) => row && sheetOfSize(row, 1))].filter((sheet) => sheet != null);
}

/** What systems on some lines are judged for, and where their ground is read. */
export interface SystemsAsked {
  readonly fall: Metres;
  readonly intake: CubicMetresPerSecond;
  readonly supplyLength: Metres;
  readonly ownPipe: PlanPipe | null;
  readonly freeboard: Metres;
  readonly inletHeight: Metres;
  readonly groundFor: (plan: Plan) => Promise<Ground>;
}

/** A drive pipe is cut to this share of its greatest length, so that it surely keeps it. Common practice, no source. */
const CUT_SHORT = 0.95;

/**
 * The lines with the standpipe so near to the pump that the drive pipe keeps its rules of length; as they are where it does, or
 * where no length keeps both.
 */
async function keptShort(
  base: Plan,
  lines: SystemLines,
  drive: PipeRow,
  asked: SystemsAsked,
): Promise<{ readonly lines: SystemLines; readonly ground: Ground } | null> {
  const [start, pump] = [lines.drive[0], lines.drive.at(-1)];
  const { both } = driveLengths(drive.bore, asked.fall);
  if (!start || !pump || both === null) return null;
  const length = Math.hypot(distanceBetween(start, pump), asked.fall);
  if (length <= both.most) return null;
  const share = Math.max(both.least, CUT_SHORT * both.most) / length;
  const position = { lon: pump.lon + share * (start.lon - pump.lon), lat: pump.lat + share * (start.lat - pump.lat) };
  const along = lines.standpipe === null ? [lines.source.position] : lines.supply;
  const placed = (height: Metres): SystemLines => ({
    ...lines,
    standpipe: { position, height, inletHeight: lines.standpipe?.inletHeight ?? asked.inletHeight },
    supply: [...along, position],
    drive: [position, pump],
  });
  const sketch = sketchOf(base, placed(1), drive.bore);
  if (!sketch) return null;
  const ground = await asked.groundFor(sketch);
  const [source, here] = [lines.source.id, 'standpipe'].map((id) => ground.points.get(id)?.ground ?? null);
  if (source == null || here == null) return null;
  return { lines: placed(standpipeHeight(source + lines.source.waterLevel + asked.freeboard - here)), ground };
}

/** Every pipe and pump that makes a system of these lines which does not fail, each size of delivery pipe in its lightest class. */
export async function systemsOn(
  base: Plan,
  drawn: SystemLines,
  read: Ground,
  asked: SystemsAsked,
): Promise<{ readonly found: JudgedSystem[]; readonly failed: JudgedSystem[] }> {
  const found: JudgedSystem[] = [];
  const failed: JudgedSystem[] = [];
  for (const pump of pumpsOf(base, drawn, read, asked)) {
    const drive = drivePipeFor(base, pump.driveBore);
    const { lines, ground } = (drive && (await keptShort(base, drawn, drive, asked))) ?? { lines: drawn, ground: read };
    const count = pump.count;
    const flow = Math.min(asked.intake, pump.kind === 'sheet' ? pump.intakeMost * count : asked.intake);
    const bore = drive?.bore ?? pump.driveBore;
    const supply = drive && supplyPipeFor(base, { bore, flow, fall: asked.fall, length: asked.supplyLength });
    if (!drive || !supply) continue;
    const sizes: readonly (readonly PlanPipe[])[] = asked.ownPipe
      ? [[asked.ownPipe]]
      : deliveryPipes(base)
          .filter(([first]) => first && first.bore <= MOST_DELIVERY_BORE)
          .map((classes) => classes.map(asPlanPipe));
    for (const classes of sizes) {
      const judged = lightest(classes, (delivery) => {
        const plan = systemPlan(base, lines, { supply: asPlanPipe(supply), drive: asPlanPipe(drive), delivery }, pump);
        return judgeSystem(plan, ground);
      });
      if (judged) (holdsOrMeasure(judged) ? found : failed).push(judged);
    }
  }
  return { found, failed };
}

/** Delivery pipes wider than this are for no ram of ordinary size. Common practice, no source. */
const MOST_DELIVERY_BORE: Metres = 0.055;

function pumpsOf(
  base: Plan,
  lines: SystemLines,
  ground: Ground,
  { intake, ownPipe }: { readonly intake: CubicMetresPerSecond; readonly ownPipe: PlanPipe | null },
): PumpChoice[] {
  if (base.pump) return [base.pump];
  const sketch = sketchOf(base, lines, boreGuess(intake), ownPipe);
  return sketch ? pumpsFor(sketch, ground) : [];
}

/** The lines of a system in middling pipes and without a pump: enough to ask for its ground and for pumps that suit. */
export function sketchOf(
  base: Plan,
  lines: SystemLines,
  bore: Metres = 0.03,
  ownPipe: PlanPipe | null = null,
): Plan | null {
  const drive = drivePipeFor(base, bore);
  const supply = supplyPipes(base)[0];
  const delivery = deliveryPipes(base)[2]?.[0];
  if (!drive || !supply || !delivery) return null;
  const pipes = { supply: asPlanPipe(supply), drive: asPlanPipe(drive), delivery: ownPipe ?? asPlanPipe(delivery) };
  return systemPlan(base, lines, pipes, null);
}

/** Nothing that is said of it fails. */
export const holdsOrMeasure = ({ evaluation, runs, arrives }: JudgedSystem): boolean =>
  runs !== 'fails' && arrives !== 'fails' && evaluation.findings.every(({ verdict }) => verdict !== 'fails');

/** The lightest class whose pressure holds; the heaviest that there is where none does. */
function lightest(classes: readonly PlanPipe[], judge: (pipe: PlanPipe) => JudgedSystem | null): JudgedSystem | null {
  let last: JudgedSystem | null = null;
  for (const pipe of classes) {
    last = judge(pipe);
    const pressure = last?.evaluation.findings.filter(
      (f) => (f.code === 'pipe-pressure' || f.code === 'blocked-pressure') && f.about.startsWith('delivery'),
    );
    if (pressure?.every((f) => f.verdict === 'holds')) return last;
  }
  return last;
}
