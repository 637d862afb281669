import type { Evaluation, LineResult, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Plan, PlanPoint, PlanRoute } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { findingWords } from '../findings/finding-words.ts';
import { estimateWords, governedWords, nameOf } from '../words/measure-words.ts';
import { pipeWords } from '../words/pipe-words.ts';
import { writeDegrees } from '../words/position-words.ts';
import { LEVEL_WORDS, POINT_WORDS, ROUTE_WORDS, VERDICT_WORDS } from '../words/role-words.ts';
import { TERMS } from '../words/terms.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from './report-table.ts';

/** A plan with its evaluation, in one system of units; the evaluation is null before there is ground. */
export interface Reported {
  readonly plan: Plan;
  readonly evaluation: Evaluation | null;
  readonly units: UnitSystem;
}

/** Every point: where it is, its ground, and the water or valve level there. */
export function pointTable({ plan, evaluation, units }: Reported): ReportTable {
  const row = (point: PlanPoint) => {
    const result = evaluation?.points.find(({ id }) => id === point.id);
    return {
      id: point.id,
      cells: [
        point.name,
        POINT_WORDS[point.role].name,
        writeDegrees(point.position.lon),
        writeDegrees(point.position.lat),
        written(result?.ground, 'height', units),
        result === undefined ? UNKNOWN : GROUND_FROM[result.groundFrom],
        levelWords(point.role, result?.level, units),
      ],
    };
  };
  return {
    title: 'Points',
    columns: [
      textColumn('Point'),
      textColumn('Role'),
      numberColumn('Longitude'),
      numberColumn('Latitude'),
      numberColumn(TERMS.ground.plain),
      textColumn('From'),
      textColumn(TERMS.level.plain),
    ],
    rows: plan.points.map(row),
  };
}

/** Every route: lengths, pipe, flow, friction and pressure against its rating. */
export function lineTable({ plan, evaluation, units }: Reported): ReportTable {
  const row = (route: PlanRoute) => {
    const result = evaluation?.lines.find(({ id }) => id === route.id);
    return {
      id: route.id,
      cells: [
        route.name,
        ROUTE_WORDS[route.role].name,
        written(result?.horizontal, 'length', units),
        written(result?.slope, 'length', units),
        pipeWords(plan, route.pipe),
        written(result?.flow, 'flow', units),
        written(result?.friction, 'height', units),
        written(highestPressure(result), 'pressure', units),
        written(result?.rating, 'pressure', units),
      ],
    };
  };
  return {
    title: 'Lines',
    columns: [
      textColumn('Line'),
      textColumn('Role'),
      numberColumn(TERMS.onMap.plain),
      numberColumn(TERMS.alongGround.plain),
      textColumn('Pipe'),
      numberColumn('Flow'),
      numberColumn(TERMS.friction.plain),
      numberColumn(TERMS.highestPressure.plain),
      numberColumn(TERMS.rating.plain),
    ],
    rows: plan.routes.map(row),
  };
}

function highestPressure(line: LineResult | undefined): number | null {
  return line?.pressure == null ? null : Math.max(line.pressure.still, line.pressure.running);
}

/** Every tank the pump could lift to, with what arrives. */
export function tankTable({ plan, evaluation, units }: Reported): ReportTable {
  const row = (tank: TankResult) => ({
    id: tank.id,
    cells: [
      nameOf(plan, tank.id),
      tank.verdict === null ? UNKNOWN : VERDICT_WORDS[tank.verdict],
      estimated(tank.lift, 'height', units),
      estimated(tank.line?.governingLift, 'height', units),
      tank.line === null ? UNKNOWN : governedWords(tank.line.governedBy, units),
      estimated(tank.line?.deliveryPerDay, 'daily-volume', units),
      written(tank.demandPerDay, 'daily-volume', units),
      tank.storageDays === null ? UNKNOWN : tank.storageDays.toFixed(1),
    ],
  });
  return {
    title: 'Tanks',
    columns: [
      textColumn('Tank'),
      textColumn(TERMS.verdict.plain),
      numberColumn(TERMS.lift.plain),
      numberColumn(TERMS.governingLift.plain),
      textColumn('Where'),
      numberColumn(TERMS.arrives.plain),
      numberColumn(TERMS.needed.plain),
      numberColumn(TERMS.stored.plain),
    ],
    rows: (evaluation?.tanks ?? []).map(row),
  };
}

/** Every finding that does not hold, with what to do. */
export function findingTable({ plan, evaluation, units }: Reported): ReportTable {
  const open = (evaluation?.findings ?? []).filter(({ verdict }) => verdict !== 'holds');
  return {
    title: 'Findings',
    columns: [
      textColumn('About'),
      textColumn(TERMS.verdict.plain),
      textColumn('Finding'),
      textColumn('What to do'),
      textColumn('Source'),
    ],
    rows: open.map((finding) => {
      const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
      const verdict = VERDICT_WORDS[finding.verdict];
      return {
        id: `${finding.code} ${finding.about}`,
        cells: [nameOf(plan, finding.about), verdict, words.sentence, words.remedy, finding.source],
      };
    }),
  };
}

/** Where the height of the ground at a point comes from. */
export const GROUND_FROM = { dem: 'elevation file', measured: 'measured' } as const;

/** The level that counts at a point, with what stands there. */
export function levelWords(role: PlanPoint['role'], level: number | null | undefined, units: UnitSystem): string {
  return level == null ? UNKNOWN : `${LEVEL_WORDS[role]} ${writeQuantity(level, 'height', units)}`;
}

function written(value: number | null | undefined, kind: QuantityKind, units: UnitSystem): string {
  return value == null ? UNKNOWN : writeQuantity(value, kind, units);
}

function estimated(
  estimate: Parameters<typeof estimateWords>[0] | null | undefined,
  kind: QuantityKind,
  units: UnitSystem,
): string {
  if (estimate == null) return UNKNOWN;
  const { likely, range } = estimateWords(estimate, kind, units);
  return range === null ? likely : `${likely} (${range})`;
}
