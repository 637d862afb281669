import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { checkAffine } from '../georeference/affine-check.ts';
import { answeredCrs, type Extent } from '../georeference/answered-crs.ts';
import { type ComputableCrs, computableCrs, groundCellWidth } from '../georeference/computable-crs.ts';
import { FileQuestion, type OpenAnswers, type UnitEvidence } from '../georeference/open-answers.ts';
import { METRES_PER } from '../georeference/vertical-unit.ts';
import type { GridFlaw } from '../grid/grid.ts';
import { MemoryGrid } from '../grid/memory-grid.ts';
import { flawNote } from '../grid/terrain-note.ts';
import { type HeightRule, heightOf, isPlausible } from '../tiff/heights-from-samples.ts';
import { isAlsoVoid, meansNothing } from '../tiff/no-data.ts';
import { type Beside, statedBeside } from './beside.ts';
import { noDataValues } from './height-meaning.ts';
import { unitAssumed } from './open-notes.ts';
import type { GridFacts, OpenedGrid } from './opened-grid.ts';
import { questionFromValues, unitEvidence, type ValueContext } from './value-questions.ts';
import { ValueTally } from './value-tally.ts';

/** Numbers of a text file that is held as a whole, and where its cells lie. */
export interface MemoryParts extends Extent {
  readonly values: Float64Array;
  /** Text of the number that means "no height"; null where the file states none. */
  readonly noData: string | null;
  readonly crs: ComputableCrs;
  readonly format: GridFacts['format'];
}

/** The CRS of a file that cannot state one: the answered one first where it is to stand, then what lies beside, else the answer. */
export async function crsOfText(
  file: string,
  extent: Extent,
  { answers, beside }: { answers: OpenAnswers; beside: Beside },
): Promise<ComputableCrs> {
  const stated = answers.instead?.includes('crs') ? null : await statedBeside(beside);
  const crs = await computableCrs(stated ?? answeredCrs(file, extent, answers));
  checkAffine(extent.affine, extent, crs.geographic);
  return crs;
}

/** A grid of numbers that were read as a whole, with the questions that they raise. */
export function openInMemory(source: ByteSource, parts: MemoryParts, answers: OpenAnswers): OpenedGrid {
  const { columns, rows, affine, values, crs, format } = parts;
  const rule = ruleOf(parts.noData, answers);
  const whole = values.every(Number.isInteger);
  const evidence = lookAtValues(values, parts, rule, { file: source.name, answers });
  const { known, odd } = toHeights(values, { file: source.name, columns }, rule);
  const grid = new MemoryGrid({
    name: source.name,
    columns,
    rows,
    affine,
    crs: crs.reference,
    quantum: whole ? rule.factor : 0,
    heights: values,
    known,
  });
  return Object.assign(grid, {
    facts: {
      format,
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
      geographic: crs.geographic,
      geoKeys: null,
      statesCrs: false,
      notes: [
        ...(answers.verticalUnit === undefined ? [unitAssumed(source.name, evidence)] : []),
        ...odd.map(flawNote),
      ],
    },
  });
}

function ruleOf(noData: string | null, answers: OpenAnswers): HeightRule {
  const [value, ...alsoVoid] = noDataValues(noData, { kind: 'float', bits: 64 }, answers);
  return { noData: value ?? null, alsoVoid, factor: METRES_PER[answers.verticalUnit ?? 'metre'], add: 0 };
}

function lookAtValues(
  values: Float64Array,
  header: MemoryParts,
  rule: HeightRule,
  { file, answers }: { file: string; answers: OpenAnswers },
): UnitEvidence {
  const tally = new ValueTally(rule);
  for (let row = 0; row < header.rows; row++) {
    const from = row * header.columns;
    const above = row > 0 ? values.subarray(from - header.columns, from) : null;
    tally.addRow(values.subarray(from, from + header.columns), null, above);
  }
  const survey = tally.result(true);
  if (survey.valid === 0) {
    refuse({ code: 'no-heights', where: '', found: 'nodata in every cell', expected: 'at least one height' });
  }
  const context: ValueContext = {
    file,
    answers,
    stated: { unit: 'metre', evidence: 'assumed' },
    gridUnit: header.crs.gridUnit,
    cellMetres: groundCellWidth(header.affine, header, header.crs),
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
