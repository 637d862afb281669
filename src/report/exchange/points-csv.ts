import type { Reported } from '../tables/plan-tables.ts';
import { csvText } from '../tables/report-table.ts';
import { writeDegrees } from '../words/position-words.ts';
import { CSV_UNITS } from './csv-units.ts';

/** Every point: where it is, its ground and the level that counts there; heights empty without an elevation file. */
export function pointsCsv({ plan, evaluation, units }: Reported): string {
  const { height } = CSV_UNITS[units];
  return csvText([
    [
      'name',
      'role',
      'latitude, deg',
      'longitude, deg',
      `ground, ${height.label}`,
      'ground from',
      `level that counts, ${height.label}`,
      'note',
    ],
    ...plan.points.map((point) => {
      const result = evaluation?.points.find(({ id }) => id === point.id);
      return [
        point.name,
        point.role,
        Number(writeDegrees(point.position.lat)),
        Number(writeDegrees(point.position.lon)),
        height.write(result?.ground),
        result === undefined || result.ground === null ? null : result.groundFrom,
        height.write(result?.level),
        point.note,
      ];
    }),
  ]);
}
