import type { TankResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { svgText } from '../figure/figure-svg.ts';
import { profileFigure } from '../profile/profile-figure.ts';
import { type ProfileSource, profileOfWay } from '../profile/profile-of-plan.ts';
import type { Reported } from '../tables/plan-tables.ts';
import { csvText } from '../tables/report-table.ts';
import type { WaterWay } from '../tables/water-ways.ts';
import { nameOf } from '../words/measure-words.ts';
import { writeDegrees } from '../words/position-words.ts';
import { CHOICE_WORDS, VERDICT_WORDS } from '../words/role-words.ts';
import { safeFileName } from '../words/safe-file-name.ts';
import { inSentence, TERMS } from '../words/terms.ts';
import { CSV_UNITS, type CsvUnit } from './csv-units.ts';
import { gpxOfPlan } from './gpx-of-plan.ts';
import { linesCsv } from './lines-csv.ts';

const DAYS_DECIMALS = 1;

/** Every tank with its lift and what arrives a day, each as the 10th, 50th and 90th percentile; no rows before there is ground. */
function tanksCsv(reported: Reported): string {
  return csvText([heading(reported), ...(reported.evaluation?.tanks ?? []).map((tank) => rowOf(reported, tank))]);
}

function heading({ units }: Reported): string[] {
  const { height, length, volume } = CSV_UNITS[units];
  return [
    'tank',
    'choice',
    inSentence(TERMS.verdict),
    ...banded(inSentence(TERMS.lift), height.label),
    ...banded(inSentence(TERMS.governingLift), height.label),
    ...banded(inSentence(TERMS.arrives), volume.label),
    `${inSentence(TERMS.needed)}, ${volume.label}`,
    'full tank lasts, days',
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
    point?.role === 'tank' ? CHOICE_WORDS[point.standing] : null,
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

/** The light palette of the design for a figure that leaves the page: programs that draw SVG know no custom properties. */
export const FIGURE_COLOURS = {
  sheet: '#fbf9f2',
  ink: '#1c2630',
  inkSoft: '#4b555d',
  rule: '#d3ccbb',
  ruleStrong: '#857d6a',
  water: '#0b5fc0',
  earth: '#7c5d33',
  earthFill: '#e9dfca',
  bandFill: '#d9c9a6',
  supply: '#14607f',
  drive: '#6b2a71',
  delivery: '#a0420a',
  gravity: '#1b6b50',
} as const;

const C = FIGURE_COLOURS;
const FACE = "'Gill Sans Nova', 'Gill Sans', 'Noto Sans', 'Liberation Sans', sans-serif";

/** Style of the profile figure as a file of its own: the grammar of docs/design.md, on paper. */
const PROFILE_STYLE = `
.profile-figure { font-family: ${FACE}; font-size: 12px; fill: ${C.ink}; background: ${C.sheet}; }
.earth { fill: ${C.earthFill}; }
.band { fill: ${C.bandFill}; opacity: 0.75; }
.ground-line { fill: none; stroke: ${C.earth}; stroke-width: 1; }
.hatch { stroke: ${C.inkSoft}; stroke-width: 1; }
.void text, .unit, .turning text { font-size: 11px; }
.void text, .unit { fill: ${C.inkSoft}; }
.void text, .station-name, .turning text {
  paint-order: stroke; stroke: ${C.sheet}; stroke-width: 3px; stroke-linejoin: round;
}
.hair { stroke: ${C.rule}; stroke-width: 1; }
.staff-block { fill: ${C.inkSoft}; }
.staff-edge { fill: none; stroke: ${C.inkSoft}; stroke-width: 1; }
.chain-line { stroke: ${C.inkSoft}; stroke-width: 1; }
.ring { fill: ${C.sheet}; stroke: ${C.inkSoft}; stroke-width: 1; }
.pipe-line { fill: none; stroke: ${C.ink}; stroke-width: 2.5; stroke-linejoin: round; }
.supply .pipe-line { stroke: ${C.supply}; }
.drive .pipe-line { stroke: ${C.drive}; stroke-width: 3.5; }
.delivery .pipe-line { stroke: ${C.delivery}; stroke-dasharray: 9 3; }
.gravity .pipe-line { stroke: ${C.gravity}; stroke-dasharray: 9 3 2 3; }
.compared .pipe-line { stroke-width: 1.5; opacity: 0.7; }
.running { fill: none; stroke: ${C.water}; stroke-width: 1.5; }
.still { stroke: ${C.water}; stroke-width: 1; stroke-dasharray: 2 4; }
.turning path { fill: ${C.sheet}; stroke: ${C.ink}; stroke-width: 1; }
.leader { stroke: ${C.ruleStrong}; stroke-width: 0.75; }
.symbol .body { fill: ${C.sheet}; stroke: ${C.ink}; stroke-width: 1.5; stroke-linejoin: round; }
.symbol .stroke { fill: none; stroke: ${C.ink}; stroke-width: 1.5; stroke-linecap: round; }
`;

/** Fits the width of a page with room for names; pixels, no source. */
const SIZE = { width: 960, height: 400 } as const;

/** The profile of one way of the water as the text of an SVG file with its own style; null where there is no height. */
function profileSvg(source: ProfileSource, way: WaterWay, units: UnitSystem): string | null {
  const figure = profileFigure({ ...profileOfWay(source, way), units, size: SIZE, cursor: null, key: 'profile' });
  return figure === null ? null : svgText(onPaper(figure));
}

/** The figure with its title, its style and paper under it. */
function onPaper(figure: FigureNode): FigureNode {
  const title = figureNode('title', {}, figure.attributes['aria-label'] ?? '');
  const style = figureNode('style', {}, PROFILE_STYLE);
  const paper = figureNode('rect', { width: SIZE.width, height: SIZE.height, fill: FIGURE_COLOURS.sheet });
  return { ...figure, children: [title, style, paper, ...figure.children] };
}

/** A file for the user to keep. */
export interface ExportedFile {
  readonly name: string;
  /** Media type. */
  readonly type: string;
  readonly text: string;
}

export type TableFormat = 'gpx' | 'points-csv' | 'lines-csv' | 'tanks-csv';

interface FormatAbout {
  /** What it holds, for a menu. */
  readonly words: string;
  /** Whether it says nothing before there is ground. */
  readonly needsGround: boolean;
  readonly type: string;
  /** How the file's name ends. */
  readonly ending: string;
  readonly write: (reported: Reported) => string;
}

const CSV = 'text/csv;charset=utf-8';

export const EXPORT_FORMATS: Readonly<Record<TableFormat, FormatAbout>> = {
  gpx: {
    words: 'Points and lines for a GPS receiver (GPX)',
    needsGround: false,
    type: 'application/gpx+xml',
    ending: '.gpx',
    write: ({ plan }) => gpxOfPlan(plan),
  },
  'points-csv': {
    words: 'Points as a table (CSV)',
    needsGround: false,
    type: CSV,
    ending: '-points.csv',
    write: pointsCsv,
  },
  'lines-csv': {
    words: 'Lines as a table (CSV)',
    needsGround: false,
    type: CSV,
    ending: '-lines.csv',
    write: linesCsv,
  },
  'tanks-csv': {
    words: 'What reaches each tank as a table (CSV)',
    needsGround: true,
    type: CSV,
    ending: '-tanks.csv',
    write: tanksCsv,
  },
};

/** A plan as a file of another form. */
export function exportedFile(format: TableFormat, reported: Reported): ExportedFile {
  const { type, ending, write } = EXPORT_FORMATS[format];
  return { name: `${safeFileName(reported.plan.name, 'plan')}${ending}`, type, text: write(reported) };
}

/** The profile of one way of the water as an SVG file; null where there is no height. */
export function exportedProfile(source: ProfileSource, way: WaterWay, units: UnitSystem): ExportedFile | null {
  const text = profileSvg(source, way, units);
  if (text === null) return null;
  const name = `${safeFileName(`${source.plan.name} profile ${way.title}`, 'profile')}.svg`;
  return { name, type: 'image/svg+xml', text };
}

/** Every point: where it is, its ground and the water or valve level there; heights empty without an elevation file. */
function pointsCsv({ plan, evaluation, units }: Reported): string {
  const { height } = CSV_UNITS[units];
  return csvText([
    [
      'name',
      'role',
      'latitude, deg',
      'longitude, deg',
      `ground, ${height.label}`,
      'ground from',
      `water or valve level, ${height.label}`,
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
