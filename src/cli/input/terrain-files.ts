import type { Plan } from '../../plan/model/plan.ts';
import type { OpenAnswers, Question } from '../../terrain/georeference/open-answers.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import { openTerrain } from '../../terrain/ground/open-terrain.ts';
import type { OpenedGrid } from '../../terrain/open/opened-grid.ts';
import type { Problem } from '../../units/outcome.ts';
import type { FlagShape, Flags } from './flags.ts';
import type { CommandIo } from './io.ts';
import { InputError } from './io.ts';

/** Flags of every command that reads elevations. */
export const TERRAIN_SHAPES: Readonly<Record<string, FlagShape>> = {
  '--dem': 'list',
  '--band': 'value',
  '--no-data': 'value',
  '--dem-unit': 'value',
  '--rows-run': 'value',
  '--dem-crs': 'value',
  '--accuracy': 'value',
};

/** What `--help` says of them. */
export const TERRAIN_USAGE = `  --dem          elevation files, GeoTIFF or ESRI ASCII grid; several for neighbouring tiles;
                 an address that starts http or https is read in parts, as far as needed
  --band         band with the heights, where a file has several
  --no-data      stored number that means "no height", or none
  --dem-unit     unit of the heights where the file does not say: metre, foot, us-survey-foot, centimetre …
  --rows-run     south or north, where the file's Y scale is negative
  --dem-crs      EPSG code of the coordinates where the file does not say, such as EPSG:27700
  --accuracy     class of the heights' accuracy; the plan's own or inferred from the file when not given
`;

/** A problem in one line. */
export function problemLine(problem: Problem): string {
  return `${problem.path}: found ${problem.found}, expected ${problem.expected}`;
}

const UNIT_WORDS: Readonly<Record<string, OpenAnswers['verticalUnit']>> = {
  metre: 'metre',
  foot: 'foot',
  'us-survey-foot': 'US survey foot',
  'british-foot-1936': 'British foot 1936',
  centimetre: 'centimetre',
  decimetre: 'decimetre',
};

function chosen<T>(flags: Flags, flag: string, words: Readonly<Record<string, T>>): T | undefined {
  const text = flags.text(flag);
  if (text === null) return undefined;
  if (Object.hasOwn(words, text)) return words[text];
  throw new InputError(`${flag}: found ${text}, expected ${Object.keys(words).join(', ')}`);
}

function numberOf(flags: Flags, flag: string): number | undefined {
  const text = flags.text(flag);
  if (text === null) return undefined;
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value)) return value;
  throw new InputError(`${flag}: found ${text}, expected a number`);
}

function epsgCode(flags: Flags): number | undefined {
  const text = flags.text('--dem-crs');
  if (text === null) return undefined;
  const code = /^(?:EPSG:)?(\d{4,6})$/i.exec(text)?.[1];
  if (code !== undefined) return Number(code);
  throw new InputError(`--dem-crs: found ${text}, expected an EPSG code such as EPSG:27700`);
}

function answersFrom(flags: Flags): OpenAnswers {
  const band = numberOf(flags, '--band');
  const noData = flags.text('--no-data') === 'none' ? 'none' : numberOf(flags, '--no-data');
  const verticalUnit = chosen(flags, '--dem-unit', UNIT_WORDS);
  const rowsRun = chosen(flags, '--rows-run', { south: 'south', north: 'north' } as const);
  const crs = epsgCode(flags);
  return {
    ...(band !== undefined && { band }),
    ...(noData !== undefined && { noData }),
    ...(verticalUnit !== undefined && { verticalUnit }),
    ...(rowsRun !== undefined && { rowsRun }),
    ...(crs !== undefined && { crs }),
  };
}

/** Which flag answers a question about a file. */
const ANSWERED_BY: Readonly<Record<Question['about'], string>> = {
  band: '--band',
  noData: '--no-data',
  verticalUnit: '--dem-unit',
  rowsRun: '--rows-run',
  crs: '--dem-crs',
};

/** What a command wants with a terrain. */
export interface TerrainUse<T> {
  /** Accuracy class to take when no flag names one, such as the plan's own. */
  readonly accuracy?: string | null;
  /** The terrain, and the grids of the files that it is made of. */
  readonly use: (terrain: GridTerrain, grids: readonly OpenedGrid[]) => Promise<T>;
}

/** The plan as it is to be judged: a class named by the flag stands before the plan's own class and constants. */
export function planWithFlags(plan: Plan, flags: Flags): Plan {
  const accuracy = flags.text('--accuracy');
  if (accuracy === null) return plan;
  return { ...plan, terrain: { files: plan.terrain?.files ?? [], accuracy, constants: null } };
}

/** Opens the files of `--dem`, hands the terrain to `use` and closes them again. */
export async function withTerrain<T>(flags: Flags, io: CommandIo, want: TerrainUse<T>): Promise<T> {
  const paths = flags.list('--dem');
  if (paths.length === 0) throw new InputError('--dem is missing, expected one elevation file or more');
  const files = await io.openFiles(paths);
  try {
    const own = answersFrom(flags);
    const answers = Object.fromEntries(files.map((f) => [f.name, own]));
    const opened = await openTerrain(files, { answers, accuracy: flags.text('--accuracy') ?? want.accuracy ?? null });
    if (opened.kind === 'refused') throw new InputError(opened.problems.map(problemLine).join('; '));
    if (opened.kind === 'question') throw new InputError(opened.questions.map(questionLine).join('; '));
    return await want.use(opened.terrain, opened.grids);
  } finally {
    await Promise.all(files.map((f) => f.close()));
  }
}

function questionLine(question: Question): string {
  const flag = ANSWERED_BY[question.about];
  switch (question.about) {
    case 'band':
      return `${question.file}: found ${question.bands.length} bands, say with ${flag} which one holds the heights`;
    case 'noData':
      return `${question.file}: found ${question.suspicious} in many cells, say with ${flag} what means "no height", or none`;
    case 'verticalUnit':
      return `${question.file}: found heights from ${question.lowest} to ${question.highest} without a unit, say with ${flag}`;
    case 'crs':
      return `${question.file}: found coordinates without a reference system, say with ${flag} which EPSG code they are in`;
    case 'rowsRun':
      return `${question.file}: found a negative Y scale, say with ${flag} whether its rows run south or north`;
  }
}
