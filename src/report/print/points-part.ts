import type { Position } from '../../geodesy/position.ts';
import type { PlanPoint } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { letterOf } from '../plan-map/plan-map-labels.ts';
import { GROUND_FROM, levelWords, lineTable } from '../tables/plan-tables.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from '../tables/report-table.ts';
import { nameOf } from '../words/measure-words.ts';
import { pipeWords } from '../words/pipe-words.ts';
import { CHOICE_WORDS, POINT_WORDS, ROUTE_WORDS } from '../words/role-words.ts';
import { TERMS } from '../words/terms.ts';
import type { PrintSource } from './print-source.ts';
import { written } from './sheet-node.ts';

const MINUTES = 60;
/** Four decimals of a minute are about 0.2 m on the ground. */
const DECIMALS = 4;

/** A position in degrees and decimal minutes with its letters, as handheld receivers show it. */
export function degreesMinutes({ lat, lon }: Position): string {
  return `${axis(lat, 'NS')} ${axis(lon, 'EW')}`;
}

function axis(degrees: number, letters: 'NS' | 'EW'): string {
  // Rounded once, in minutes, so that 59.99999′ becomes the next degree and never 60′.
  const minutes = Number((Math.abs(degrees) * MINUTES).toFixed(DECIMALS));
  const whole = Math.floor(minutes / MINUTES);
  const rest = (minutes - whole * MINUTES).toFixed(DECIMALS).padStart(DECIMALS + 3, '0');
  return `${whole}°\u202f${rest}′\u202f${letters[degrees < 0 ? 1 : 0]}`;
}

/** Every point with its number on the map and its coordinates in both ways of writing. */
export function pointRows({ plan, units, site }: PrintSource): Omit<ReportTable, 'title'> {
  return {
    columns: [
      numberColumn('No.'),
      textColumn('Point'),
      textColumn('Decimal degrees'),
      textColumn('Degrees and minutes'),
      numberColumn(TERMS.ground.plain),
      textColumn('From'),
      textColumn(TERMS.level.plain),
    ],
    rows: plan.points.map((point, index) => {
      const result = site?.evaluation.points.find(({ id }) => id === point.id);
      return {
        id: point.id,
        cells: [
          String(index + 1),
          `${point.name} · ${roleOf(point)}`,
          decimal(point),
          degreesMinutes(point.position),
          written(result?.ground, 'height', units),
          result === undefined || result.ground === null ? UNKNOWN : GROUND_FROM[result.groundFrom],
          levelWords(point.role, result?.level, units),
        ],
      };
    }),
  };
}

/** Latitude and longitude as a receiver takes them: signed degrees, about a tenth of a metre. */
function decimal({ position: { lat, lon } }: PlanPoint): string {
  return `${signed(lat)}, ${signed(lon)}`;
}

function signed(degrees: number): string {
  return `${degrees < 0 ? '−' : ''}${Math.abs(degrees).toFixed(6)}`;
}

function roleOf(point: PlanPoint): string {
  const role = POINT_WORDS[point.role].name.toLowerCase();
  if (point.role !== 'tank') return role;
  return `tank, ${CHOICE_WORDS[point.standing]}`;
}

/** Every line with its letter on the map: from where to where, how long, of what pipe. */
export function lineRows({ plan, units, site }: PrintSource): Omit<ReportTable, 'title'> {
  return {
    columns: [
      textColumn('Letter'),
      textColumn('Line'),
      textColumn('From and to'),
      numberColumn(TERMS.onMap.plain),
      numberColumn(TERMS.alongGround.plain),
      textColumn('Pipe'),
    ],
    rows: plan.routes.map((route, index) => {
      const line = site?.evaluation.lines.find(({ id }) => id === route.id);
      const gap =
        line !== undefined && line.void > 0 ? `, ${written(line.void, 'length', units)} of it without heights` : '';
      return {
        id: route.id,
        cells: [
          letterOf(index),
          `${nameOf(plan, route.id)} · ${ROUTE_WORDS[route.role].name.toLowerCase()}`,
          `${nameOf(plan, route.from)} to ${nameOf(plan, route.to)}`,
          written(line?.horizontal, 'length', units),
          `${written(line?.slope, 'length', units)}${gap}`,
          pipeWords(plan, route.pipe),
        ],
      };
    }),
  };
}

/** The same lines with their results: flow, friction and pressure against the rating. */
export function lineResultRows({ plan, units, site }: PrintSource): Omit<ReportTable, 'title'> {
  const { columns, rows } = lineTable({ plan, evaluation: site?.evaluation ?? null, units });
  return {
    columns: [textColumn('Letter'), ...columns.filter((_, i) => i !== ROLE)],
    rows: rows.map(({ id, cells: [name = '', role = '', ...rest] }, index) => ({
      id,
      cells: [letterOf(index), `${name} · ${role.toLowerCase()}`, ...rest],
    })),
  };
}

/** Place of the role among the columns of the table of lines; here it stands beside the name. */
const ROLE = 1;

/** Notes that the user wrote to points and lines. */
export function noteList({ plan }: PrintSource): FigureNode | null {
  const noted = [...plan.points, ...plan.routes].filter(({ note }) => note.trim() !== '');
  if (noted.length === 0) return null;
  const items = noted.map(({ id, note }) =>
    figureNode('li', {}, figureNode('strong', {}, nameOf(plan, id)), `: ${note}`),
  );
  return figureNode('ul', { class: 'notes' }, ...items);
}
