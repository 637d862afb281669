import type { LineResult } from '../../evaluation/result/evaluation.ts';
import { polylineLength } from '../../geodesy/polyline-length.ts';
import type { PlanRoute } from '../../plan/model/plan.ts';
import type { Reported } from '../tables/plan-tables.ts';
import { csvText } from '../tables/report-table.ts';
import { nameOf } from '../words/measure-words.ts';
import { pipeWords } from '../words/pipe-words.ts';
import { inSentence, TERMS } from '../words/terms.ts';
import { CSV_UNITS } from './csv-units.ts';

/** Every line: lengths, ground, pipe, water and pressure; only the length on the map without an elevation file. */
export function linesCsv(reported: Reported): string {
  const { plan, evaluation } = reported;
  const rows = plan.routes.map((route) => {
    const result = evaluation?.lines.find(({ id }) => id === route.id);
    return rowOf(reported, route, result ?? null);
  });
  return csvText([heading(reported), ...rows]);
}

function heading({ units }: Reported): string[] {
  const { height, length, flow, pressure } = CSV_UNITS[units];
  return [
    'name',
    'role',
    'from',
    'to',
    'pipe',
    `${inSentence(TERMS.onMap)}, ${length.label}`,
    `length along the ground, ${length.label}`,
    `length without heights, ${length.label}`,
    `ground at its start, ${height.label}`,
    `ground at its end, ${height.label}`,
    `lowest ground, ${height.label}`,
    `highest ground, ${height.label}`,
    `flow, ${flow.label}`,
    `${inSentence(TERMS.friction)}, ${height.label}`,
    `highest pressure with no flow or running, ${pressure.label}`,
    `pressure with the delivery shut, ${pressure.label}`,
    `${inSentence(TERMS.rating)} at the water’s temperature, ${pressure.label}`,
    'note',
  ];
}

function rowOf({ plan, units }: Reported, route: PlanRoute, result: LineResult | null) {
  const { height, length, flow, pressure } = CSV_UNITS[units];
  const highest = result?.pressure == null ? null : Math.max(result.pressure.still, result.pressure.running);
  return [
    route.name,
    route.role,
    nameOf(plan, route.from),
    nameOf(plan, route.to),
    pipeWords(plan, route.pipe),
    length.write(result?.horizontal ?? polylineLength(route.vertices)),
    length.write(result?.slope),
    length.write(result?.void),
    height.write(result?.start),
    height.write(result?.end),
    height.write(result?.lowest),
    height.write(result?.highest),
    flow.write(result?.flow),
    height.write(result?.friction),
    pressure.write(highest),
    pressure.write(result?.pressure?.blocked),
    pressure.write(result?.rating),
    route.note,
  ];
}
