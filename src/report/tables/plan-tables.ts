import type { Evaluation, LineResult, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Plan, PlanPoint, PlanRoute } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { findingWords } from '../findings/finding-words.ts';
import { estimateWords, governedWords, nameOf } from '../words/measure-words.ts';
import { pipeWords } from '../words/pipe-words.ts';
import { writeDegrees } from '../words/position-words.ts';
import { POINT_WORDS, ROUTE_WORDS } from '../words/role-words.ts';
import { VERDICT_WORDS } from '../words/verdict-words.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from './report-table.ts';

/** A plan with its evaluation, in one system of units; the evaluation is null before there is ground. */
export interface Reported {
  readonly plan: Plan;
  readonly evaluation: Evaluation | null;
  readonly units: UnitSystem;
}

/** Every point: where it is, its ground, and the level that counts there. */
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
        result === undefined ? UNKNOWN : result.groundFrom === 'dem' ? 'DEM' : 'measured',
        written(result?.level, 'height', units),
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
      numberColumn('Ground'),
      textColumn('From'),
      numberColumn('Level that counts'),
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
      numberColumn('Length on the map'),
      numberColumn('Along the ground'),
      textColumn('Pipe'),
      numberColumn('Flow'),
      numberColumn('Friction'),
      numberColumn('Highest pressure'),
      numberColumn('Rating'),
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
      textColumn('Verdict'),
      numberColumn('Lift'),
      numberColumn('Governing lift'),
      textColumn('Governed by'),
      numberColumn('Arrives a day'),
      numberColumn('Need a day'),
      numberColumn('Days stored'),
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
      textColumn('Verdict'),
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
