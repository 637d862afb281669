import type { UnitSystem } from '../../units/kind.ts';
import type { ProfileSource } from '../profile/profile-of-plan.ts';
import type { Reported } from '../tables/plan-tables.ts';
import type { WaterWay } from '../tables/water-ways.ts';
import { safeFileName } from '../words/safe-file-name.ts';
import { gpxOfPlan } from './gpx-of-plan.ts';
import { linesCsv } from './lines-csv.ts';
import { pointsCsv } from './points-csv.ts';
import { profileSvg } from './profile-svg.ts';
import { tanksCsv } from './tanks-csv.ts';

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
