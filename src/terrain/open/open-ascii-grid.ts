import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { checkAffine } from '../georeference/affine-check.ts';
import { answeredCrs } from '../georeference/answered-crs.ts';
import { type ComputableCrs, computableCrs, groundCellWidth } from '../georeference/computable-crs.ts';
import { FileQuestion, type OpenAnswers, type OpenOutcome, type UnitEvidence } from '../georeference/open-answers.ts';
import { METRES_PER } from '../georeference/vertical-unit.ts';
import type { GridFlaw } from '../grid/grid.ts';
import { MemoryGrid } from '../grid/memory-grid.ts';
import { flawNote } from '../grid/terrain-note.ts';
import { type HeightRule, heightOf, isPlausible } from '../tiff/heights-from-samples.ts';
import { isAlsoVoid, meansNothing } from '../tiff/no-data.ts';
import { type AsciiHeader, readAsciiHeader } from './ascii-header.ts';
import { AsciiNumbers } from './ascii-numbers.ts';
import { noDataValues } from './height-meaning.ts';
import { openOutcome } from './open-failure.ts';
import { DEFAULT_MEMORY } from './open-geotiff.ts';
import { unitAssumed } from './open-notes.ts';
import type { OpenedGrid } from './opened-grid.ts';
import { questionFromValues, unitEvidence, type ValueContext } from './value-questions.ts';
import { ValueTally } from './value-tally.ts';

const HEAD_BYTES = 4096;
const PIECE_BYTES = 1024 * 1024;
/** Bytes in memory of a cell: a height and whether it is known. */
const CELL_BYTES = 9;

/**
 * Opens an ESRI ASCII grid. The whole of it is held in memory, since its rows have no fixed places in the file; one that is
 * too large for the budget is refused. Such a file says nothing about its CRS: the user is asked for its EPSG code.
 */
export function openAsciiGrid(source: ByteSource, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, () => open(source, answers), answers.signal);
}

async function open(source: ByteSource, answers: OpenAnswers): Promise<OpenedGrid> {
  const [head] = await source.read([{ offset: 0, length: Math.min(HEAD_BYTES, source.size) }], answers.signal);
  const header = readAsciiHeader(head ?? new Uint8Array(0));
  checkSize(header, source, answers);
  const crs = await computableCrs(answeredCrs(source.name, header, answers));
  const { geographic } = crs;
  checkAffine(header.affine, header, geographic);
  const rule = ruleOf(header, answers);
  const values = await readValues(source, header, answers.signal);
  const evidence = lookAtValues(values, header, rule, { file: source.name, answers, crs });
  const { known, odd } = toHeights(values, { file: source.name, columns: header.columns }, rule);
  const { columns, rows, affine } = header;
  const whole = values.every(Number.isInteger);
  const quantum = whole ? rule.factor : 0;
  const grid = new MemoryGrid({
    name: source.name,
    columns,
    rows,
    affine,
    crs: crs.reference,
    quantum,
    heights: values,
    known,
  });
  return Object.assign(grid, {
    facts: {
      format: 'ESRI ASCII grid' as const,
      fileBytes: source.size,
      samples: 'decimal numbers',
      compression: 'none',
      cellsAre: 'area' as const,
      verticalUnit: answers.verticalUnit ?? 'metre',
      unitEvidence: answers.verticalUnit === undefined ? ('assumed' as const) : ('answered' as const),
      verticalDatum: null,
      noData: rule.noData,
      band: 1,
      bands: 1,
      geographic,
      geoKeys: null,
      statesCrs: false,
      notes: [
        ...(answers.verticalUnit === undefined ? [unitAssumed(source.name, evidence)] : []),
        ...odd.map(flawNote),
      ],
    },
  });
}

function checkSize(header: AsciiHeader, source: ByteSource, answers: OpenAnswers): void {
  const cells = header.columns * header.rows;
  const most = Math.floor((answers.memory ?? DEFAULT_MEMORY) / CELL_BYTES);
  // A value takes a figure and a blank at least, the last one a figure.
  if (2 * cells - 1 > source.size - header.bodyAt) {
    refuse({ code: 'short-file', where: '', found: `${source.size} bytes`, expected: `${cells} heights` });
  }
  if (cells > most) {
    refuse({
      code: 'memory',
      where: '',
      found: `${cells} cells`,
      expected: `at most ${most} cells in this format; a GeoTIFF may be larger`,
    });
  }
}

function ruleOf(header: AsciiHeader, answers: OpenAnswers): HeightRule {
  const [value, ...alsoVoid] = noDataValues(header.noData, { kind: 'float', bits: 64 }, answers);
  return { noData: value ?? null, alsoVoid, factor: METRES_PER[answers.verticalUnit ?? 'metre'], add: 0 };
}

async function readValues(source: ByteSource, header: AsciiHeader, signal?: AbortSignal): Promise<Float64Array> {
  const values = new Float64Array(header.columns * header.rows);
  const numbers = new AsciiNumbers((value, index) => {
    if (index >= values.length) {
      refuse({ code: 'long-file', where: '', found: 'more heights', expected: `${values.length} heights` });
    }
    values[index] = value;
  });
  for (let offset = header.bodyAt; offset < source.size; offset += PIECE_BYTES) {
    const length = Math.min(PIECE_BYTES, source.size - offset);
    const [piece] = await source.read([{ offset, length }], signal);
    signal?.throwIfAborted();
    numbers.add(piece ?? new Uint8Array(0));
  }
  numbers.end();
  if (numbers.count === values.length) return values;
  return refuse({
    code: 'short-file',
    where: '',
    found: `${numbers.count} heights`,
    expected: `${values.length} heights`,
  });
}

function lookAtValues(
  values: Float64Array,
  header: AsciiHeader,
  rule: HeightRule,
  { file, answers, crs }: { file: string; answers: OpenAnswers; crs: ComputableCrs },
): UnitEvidence {
  const tally = new ValueTally(rule);
  for (let row = 0; row < header.rows; row++) {
    tally.addRow(values.subarray(row * header.columns, (row + 1) * header.columns), null);
  }
  const survey = tally.result(true);
  if (survey.valid === 0) {
    refuse({ code: 'no-heights', where: '', found: 'nodata in every cell', expected: 'at least one height' });
  }
  const context: ValueContext = {
    file,
    answers,
    stated: { unit: 'metre', evidence: 'assumed' },
    gridUnit: crs.gridUnit,
    cellMetres: groundCellWidth(header.affine, header, crs),
    noDataText: header.noData,
    scale: 1,
    offset: 0,
    maybePicture: false,
  };
  const question = questionFromValues(survey, context);
  if (question !== null) throw new FileQuestion(question);
  return unitEvidence(survey, context);
}

/** Turns stored numbers into metres in place; answers which cells have any, and what numbers no ground has. */
function toHeights(
  values: Float64Array,
  { file, columns }: { file: string; columns: number },
  rule: HeightRule,
): { known: Uint8Array; odd: GridFlaw[] } {
  const { alsoVoid = [] } = rule;
  let oddOnes = 0;
  let first = '';
  const known = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const raw = values[i] as number;
    if (meansNothing(raw, rule.noData ?? Number.NaN) || isAlsoVoid(raw, alsoVoid)) {
      values[i] = 0;
      continue;
    }
    const height = heightOf(raw, rule);
    if (!isPlausible(height)) {
      first ||= `${raw} at column ${i % columns}, row ${Math.floor(i / columns)}, which would be ${height} m`;
      oddOnes++;
      values[i] = 0;
      continue;
    }
    values[i] = height;
    known[i] = 1;
  }
  return { known, odd: oddOnes > 0 ? [{ code: 'odd-heights', file, count: oddOnes, first }] : [] };
}
