import type { Problem } from '../../units/outcome.ts';
import { FileRefusal, refusalInFile } from '../bytes/file-refusal.ts';
import { FileQuestion, type OpenOutcome, type Question } from '../georeference/open-answers.ts';

/** Runs an opening and turns what it throws into an outcome; only an abort still rejects. */
export async function openOutcome<T>(
  file: string,
  open: () => Promise<T>,
  signal?: AbortSignal,
): Promise<OpenOutcome<T>> {
  try {
    return { kind: 'opened', ok: true, value: await open() };
  } catch (error) {
    if (signal?.aborted === true) throw error;
    if (error instanceof FileQuestion) {
      return { kind: 'question', ok: false, question: error.question, problems: [unanswered(error.question)] };
    }
    if (error instanceof FileRefusal) {
      return { kind: 'refused', ok: false, problems: [refusalInFile(file, error).problem] };
    }
    return { kind: 'refused', ok: false, problems: [unreadable(file, error)] };
  }
}

function unreadable(file: string, error: unknown): Problem {
  const found = error instanceof Error ? error.message : String(error);
  return { code: 'unreadable', path: file, found, expected: 'a file that can be read' };
}

/** The problem that stands for a question nobody answered. */
function unanswered(question: Question): Problem {
  const path = question.file;
  switch (question.about) {
    case 'band': {
      const titles = question.bands.map(({ band, title }) => (title === '' ? `${band}` : `${band} (${title})`));
      return { code: 'which-band', path, found: `bands ${titles.join(', ')}`, expected: 'the band with the heights' };
    }
    case 'noData':
      return {
        code: 'which-no-data',
        path,
        found: `${question.suspicious} in ${(100 * question.share).toPrecision(2)} % of the cells looked at`,
        expected: 'the number that means "no height", or that there is none',
      };
    case 'verticalUnit':
      return {
        code: 'which-vertical-unit',
        path,
        found: `stored numbers from ${rounded(question.lowest)} to ${rounded(question.highest)} without a unit that fits them`,
        expected: 'the unit of the heights',
      };
    case 'entry':
      return {
        code: 'which-entry',
        path,
        found: `${question.entries.length} elevation files in one archive`,
        expected: 'the one that is meant',
      };
    case 'eightBit':
      return {
        code: 'picture-or-heights',
        path,
        found: `numbers of 8 bits from ${question.lowest} to ${question.highest} without a unit, as a picture has them`,
        expected: 'elevations, or that these are heights',
      };
    case 'crs':
      return {
        code: 'which-crs',
        path,
        found: `coordinates from ${question.corners.slice(0, 2).join(', ')} to ${question.corners.slice(2).join(', ')} in no stated system`,
        expected: 'the EPSG code of their coordinate reference system',
      };
    case 'rowsRun':
      return {
        code: 'which-way-rows-run',
        path,
        found: 'a negative Y scale',
        expected: 'whether the first row is the southernmost or the northernmost',
      };
  }
}

/** A number as it is told in a sentence: whole from ten on. */
const rounded = (value: number): string => (Math.abs(value) >= 10 ? value.toFixed(0) : value.toPrecision(2));
