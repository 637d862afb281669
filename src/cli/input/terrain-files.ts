import type { Plan } from '../../plan/model/plan.ts';
import { terrainJson } from '../../report/tables/terrain-json.ts';
import { unitEvidenceWords } from '../../report/words/question-words.ts';
import { terrainNoteSentence } from '../../report/words/terrain-note-words.ts';
import { FileRefusal } from '../../terrain/bytes/file-refusal.ts';
import type { Question } from '../../terrain/georeference/open-answers.ts';
import type { TerrainNote } from '../../terrain/grid/terrain-note.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import { openTerrain, type TerrainOrder } from '../../terrain/ground/open-terrain.ts';
import type { HeightsRecord, OpenedGrid } from '../../terrain/open/opened-grid.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { bundleAt, filesInBundle } from './bundle-operand.ts';
import { ANSWER_FLAGS, answersFrom, demOperand } from './dem-operand.ts';
import type { FlagShape, Flags } from './flags.ts';
import type { CommandIo } from './io.ts';
import { InputError, type OpenFile } from './io.ts';
import { problemLine } from './problem-line.ts';

/** Flags of every command that reads elevations. */
export const TERRAIN_SHAPES: Readonly<Record<string, FlagShape>> = {
  '--dem': 'list',
  ...Object.fromEntries(ANSWER_FLAGS.map((flag) => [flag, 'value' as const])),
  '--accuracy': 'value',
};

/** What `--help` says of them. */
export const TERRAIN_USAGE = `  --dem          elevation files; not needed for a plan in a file made by rillwright bundle: GeoTIFF, ESRI ASCII grid, .hgt, .xyz, or a zip archive with one of them; several for
                 neighbouring tiles, with what lies beside them (.msk, world file, .prj). An address that starts http or
                 https is read in parts, as far as needed: a server may keep silent for 12 s, be waited for 10 minutes and
                 send 1 GB in all. What is said of one file alone follows its name:
                 tile.tif,unit=foot,crs=EPSG:27700; words: band, no-data, unit, rows-run, crs, 8-bit, entry, and
                 unit-instead, crs-instead, no-data-instead, which come before what the file states
  --band         band with the heights, where a file has several
  --no-data      further stored number that means "no height" (several as -9999/-32767), or none
  --dem-unit     unit of the heights where the file does not say: metre, foot, us-survey-foot, centimetre …
  --rows-run     south or north, where the file's Y scale is negative
  --dem-crs      EPSG code of the coordinates where the file does not say, such as EPSG:27700
  --8-bit        heights, where numbers of 8 bits without a unit are no picture
  --no-data-instead, --dem-unit-instead, --dem-crs-instead   the same, and they come before what the file states
  --accuracy     class of the heights' accuracy; the plan's own or inferred from the file when not given
`;

/** Which flag answers a question about a file. */
const ANSWERED_BY: Readonly<Record<Question['about'], string>> = {
  band: '--band',
  noData: '--no-data',
  verticalUnit: '--dem-unit',
  rowsRun: '--rows-run',
  crs: '--dem-crs',
  eightBit: '--8-bit heights',
  entry: '--dem ARCHIVE,entry=NAME',
};

/** What a command wants with a terrain. */
export interface TerrainUse<T> {
  /** Accuracy class to take when no flag names one, such as the plan's own. */
  readonly accuracy?: string | null;
  /** The terrain, and the grids of the files that it is made of. */
  readonly use: (terrain: GridTerrain, grids: readonly OpenedGrid[]) => Promise<T>;
}

/** What came of a terrain, and what it has to tell. */
export interface TerrainAnswer<T> {
  readonly value: T;
  readonly terrain: GridTerrain;
}

/** The plan as it is to be judged: a class named by the flag stands before the plan's own class and constants. */
export function planWithFlags(plan: Plan, flags: Flags): Plan {
  const accuracy = flags.text('--accuracy');
  if (accuracy === null) return plan;
  return { ...plan, terrain: { files: plan.terrain?.files ?? [], accuracy, constants: null } };
}

interface Elevations extends Pick<TerrainOrder, 'answers' | 'recorded'> {
  readonly files: readonly OpenFile[];
}

/** The files of `--dem`; where it is not given, those of the bundle that stands where a plan would. */
async function elevationsFrom(flags: Flags, io: CommandIo): Promise<Elevations> {
  const forAll = answersFrom(flags);
  const operands = flags.list('--dem').map((text) => demOperand(text, forAll));
  if (operands.length > 0) {
    const files = await io.openFiles(operands.map(({ path }) => path));
    return { files, answers: Object.fromEntries(files.map((file, k) => [file.name, operands[k]?.answers ?? forAll])) };
  }
  const bundle = await bundleAt(flags.operands[0] ?? '', io);
  if (bundle === null) throw new InputError('--dem is missing, expected one elevation file or more');
  if (bundle.heights.length === 0) {
    throw new InputError(
      `${flags.operands[0]}: found no elevation inside, expected --dem with one elevation file or more`,
    );
  }
  const byName = <T>(of: (record: HeightsRecord) => T) =>
    Object.fromEntries(bundle.heights.map(({ name, record }) => [name, of(record)]));
  return { files: filesInBundle(bundle), answers: byName(() => ({})), recorded: byName((record) => record) };
}

/** Whether a command was told where its elevations are: by `--dem`, or by a bundle in the plan's place. */
export function hasTerrain(flags: Flags): boolean {
  return flags.list('--dem').length > 0 || /\.zip$/i.test(flags.operands[0] ?? '');
}

/** Opens the files of `--dem`, hands the terrain to `use` and closes them again. */
export async function withTerrain<T>(flags: Flags, io: CommandIo, want: TerrainUse<T>): Promise<TerrainAnswer<T>> {
  const { files, ...said } = await elevationsFrom(flags, io);
  try {
    const opened = await openTerrain(files, { ...said, accuracy: flags.text('--accuracy') ?? want.accuracy ?? null });
    if (opened.kind === 'refused') throw new InputError(opened.problems.map(problemLine).join('; '));
    if (opened.kind === 'question') throw new InputError(opened.questions.map(questionLine).join('; '));
    return { value: await want.use(opened.terrain, opened.grids), terrain: opened.terrain };
  } catch (error) {
    if (error instanceof FileRefusal) throw new InputError(problemLine(error.problem));
    throw error;
  } finally {
    await Promise.all(files.map((f) => f.close()));
  }
}

/** The terrain as JSON answers tell it; further notes are those of a line. */
export const terrainOf = (terrain: GridTerrain, further: readonly TerrainNote[] = []): unknown =>
  terrainJson(terrain.about, notesOf(terrain, further));

/** The terrain's notes, a sentence a line, as text answers end with. */
export function terrainText(terrain: GridTerrain, units: UnitSystem, further: readonly TerrainNote[] = []): string {
  const lines = notesOf(terrain, further).map((note) => `  ${terrainNoteSentence(note, units)}\n`);
  return lines.length === 0 ? '' : `\nElevations\n${lines.join('')}`;
}

/** The same a line each for standard error, where standard output holds a table. */
export function terrainLines(terrain: GridTerrain, units: UnitSystem, further: readonly TerrainNote[] = []): string {
  return notesOf(terrain, further)
    .map((note) => `rillwright: ${terrainNoteSentence(note, units)}\n`)
    .join('');
}

/** Each once: what makes holes is told of the whole terrain rather than of a line. */
function notesOf(terrain: GridTerrain, further: readonly TerrainNote[]): readonly TerrainNote[] {
  const own = terrain.notes();
  const told = new Set(own.map(({ code, data }) => `${code} ${data['file']}`));
  return [...own, ...further.filter(({ code, data }) => !told.has(`${code} ${data['file']}`))];
}

/** A unit that had to be guessed, on standard error, whatever form the answer takes. */
export function warnOfGuesses(terrain: GridTerrain, units: UnitSystem, io: CommandIo): void {
  const guessed = terrain.notes().filter(({ code }) => GUESSED.includes(code));
  for (const note of guessed) io.err(`rillwright: ${terrainNoteSentence(note, units)}\n`);
}

const GUESSED: readonly string[] = ['vertical-unit-assumed', 'answer-not-taken'];

function questionLine(question: Question): string {
  const flag = ANSWERED_BY[question.about];
  switch (question.about) {
    case 'band':
      return `${question.file}: found ${question.bands.length} bands, say with ${flag} which one holds the heights`;
    case 'noData':
      return `${question.file}: found ${question.suspicious} in many cells, say with ${flag} what means "no height", or none`;
    case 'verticalUnit': {
      const { lowest, highest, evidence } = question;
      const own = evidence.stated ? `${flag}-instead` : flag;
      return `${question.file}: found heights from ${lowest} to ${highest} without a unit that fits, say with ${own} (${unitEvidenceWords(question)})`;
    }
    case 'crs':
      return `${question.file}: found coordinates without a reference system, say with ${flag} which EPSG code they are in`;
    case 'rowsRun':
      return `${question.file}: found a negative Y scale, say with ${flag} whether its rows run south or north`;
    case 'eightBit':
      return `${question.file}: found numbers of 8 bits without a unit, as a picture has them, expected elevations; say with ${flag} that they are`;
    case 'entry':
      return `${question.file}: found ${question.entries.join(', ')}, say with ${flag} which one is meant`;
  }
}
