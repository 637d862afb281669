import type { TankResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Reported } from '../tables/plan-tables.ts';
import { csvText } from '../tables/report-table.ts';
import { nameOf } from '../words/measure-words.ts';
import { VERDICT_WORDS } from '../words/verdict-words.ts';
import { CSV_UNITS, type CsvUnit } from './csv-units.ts';

const DAYS_DECIMALS = 1;

/** Every tank with its lift and what arrives a day, each as the 10th, 50th and 90th percentile; no rows before there is ground. */
export function tanksCsv(reported: Reported): string {
  return csvText([heading(reported), ...(reported.evaluation?.tanks ?? []).map((tank) => rowOf(reported, tank))]);
}

function heading({ units }: Reported): string[] {
  const { height, length, volume } = CSV_UNITS[units];
  return [
    'tank',
    'standing',
    'verdict',
    ...banded('lift', height.label),
    ...banded('governing lift', height.label),
    ...banded('delivery a day', volume.label),
    `need a day, ${volume.label}`,
    'storage, days',
    `delivery line along the ground, ${length.label}`,
  ];
}

function banded(what: string, unit: string): string[] {
  return ['low', 'likely', 'high'].map((part) => `${what}, ${part}, ${unit}`);
}

function rowOf({ plan, evaluation, units }: Reported, tank: TankResult) {
  const { height, length, volume } = CSV_UNITS[units];
  const point = plan.points.find(({ id }) => id === tank.id);
  const line = evaluation?.lines.find(({ id }) => id === tank.line?.route);
  return [
    nameOf(plan, tank.id),
    point?.role === 'tank' ? point.standing : null,
    tank.verdict === null ? null : VERDICT_WORDS[tank.verdict],
    ...spread(tank.lift, height),
    ...spread(tank.line?.governingLift, height),
    ...spread(tank.line?.deliveryPerDay, volume),
    volume.write(tank.demandPerDay),
    tank.storageDays === null ? null : Number(tank.storageDays.toFixed(DAYS_DECIMALS)),
    length.write(line?.slope),
  ];
}

function spread(estimate: Estimate | null | undefined, unit: CsvUnit): (number | null)[] {
  return [estimate?.low, estimate?.likely, estimate?.high].map((value) => unit.write(value));
}
