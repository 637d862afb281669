import type { Corners, CrsCandidate } from '../../terrain/georeference/crs-candidate.ts';
import type { OpenAnswers, Question } from '../../terrain/georeference/open-answers.ts';
import type { HeightUnit } from '../../terrain/georeference/vertical-unit.ts';
import { positionWords } from './position-words.ts';

/** One answer in words, and the answer itself. */
export interface AnswerChoice {
  readonly words: string;
  readonly answer: Omit<OpenAnswers, 'memory' | 'signal'>;
}

/** A question about an elevation file as it is put to the user. */
export interface AskedWords {
  readonly sentence: string;
  readonly choices: readonly AnswerChoice[];
  /** What is to be typed in where there is nothing to choose from: the EPSG code of a coordinate reference system. */
  readonly typed?: 'crs';
}

const UNIT_WORDS: Readonly<Record<HeightUnit, string>> = {
  metre: 'metres',
  foot: 'feet (international)',
  'US survey foot': 'US survey feet',
  'British foot 1936': 'British feet of 1936',
  centimetre: 'centimetres',
  decimetre: 'decimetres',
};

const UNITS: readonly HeightUnit[] = [
  'metre',
  'foot',
  'US survey foot',
  'centimetre',
  'decimetre',
  'British foot 1936',
];

/** What an EPSG code looks like when it is typed, with or without the registry's name, as a form checks it. */
export const EPSG_PATTERN = '\\s*(?:[Ee][Pp][Ss][Gg]:)?\\s*[0-9]{4,6}\\s*';

/** The answer to the question for a CRS; null for a text that is no code. */
export function epsgAnswer(text: string): AnswerChoice['answer'] | null {
  const code = epsgCode(text);
  return code === null ? null : { crs: code };
}

/** The code in a text; null where it holds none. */
export function epsgCode(text: string): number | null {
  const code = new RegExp(`^${EPSG_PATTERN}$`).test(text) ? /[0-9]+/.exec(text)?.[0] : undefined;
  return code === undefined ? null : Number(code);
}

/** What the user is asked of one file, or of several at once. */
export interface AskedTogether extends AskedWords {
  readonly files: readonly string[];
  /** Of each file whose CRS is asked for: where its corners lie. */
  readonly corners: readonly Corners[];
}

type CrsQuestion = Extract<Question, { about: 'crs' }>;

/** The questions as they are put: tiles that all leave out their CRS are one question. */
export function askedTogether(questions: readonly Question[]): readonly AskedTogether[] {
  const crs = questions.filter((question): question is CrsQuestion => question.about === 'crs');
  const others = questions.filter(({ about }) => about !== 'crs');
  const alone = others.map((question) => ({ ...askedWords(question), files: [question.file], corners: [] }));
  const [first] = crs;
  if (first === undefined) return alone;
  const files = crs.map(({ file }) => file);
  const words = askedWords(first);
  const sentence =
    files.length === 1
      ? words.sentence
      : `${files.length} files (${files.join(', ')}) do not say which coordinate reference system they are in. Which EPSG code is it, for all of them?`;
  return [{ ...words, sentence, files, corners: crs.map(({ corners }) => corners) }, ...alone];
}

/** Where to find a code. */
export const EPSG_HINT =
  'The page that the file came from names it, often with its projection, such as UTM zone 33N (EPSG:32633).';

/** What a code makes of a file: the name of its CRS and where the file would lie, or why it cannot be. */
export function crsCandidateWords(candidate: CrsCandidate): string {
  switch (candidate.kind) {
    case 'unknown':
      return `Found ${candidate.problem.found}; expected ${candidate.problem.expected}.`;
    case 'nowhere':
      return `${candidate.name}: the file’s coordinates are no place in it. It must be another code.`;
    case 'place': {
      const where = `${candidate.name}: the middle of the file lies at ${positionWords(candidate.middle)}`;
      return candidate.inArea === false
        ? `${where}, outside the area that this system is made for. It may be another code.`
        : `${where}.`;
    }
  }
}

/** Puts what a file leaves open into words, with the answers that can be given. */
export function askedWords(question: Question): AskedWords {
  switch (question.about) {
    case 'band':
      return {
        sentence: `${question.file} has ${question.bands.length} bands. Which one holds the heights?`,
        choices: question.bands.map(({ band, title }) => ({ words: title || `band ${band}`, answer: { band } })),
      };
    case 'noData':
      return noDataWords(question);
    case 'verticalUnit':
      return unitWords(question);
    case 'crs':
      return {
        sentence: `${question.file} does not say which coordinate reference system it is in (its corner lies at ${question.corners[0]}, ${question.corners[1]}). Which EPSG code is it?`,
        choices: [],
        typed: 'crs',
      };
    case 'rowsRun':
      return {
        sentence: `${question.file} does not say which way its rows run. Which way does the first row lie?`,
        choices: [
          { words: 'at the north, as usual', answer: { rowsRun: 'south' } },
          { words: 'at the south', answer: { rowsRun: 'north' } },
        ],
      };
  }
}

function noDataWords({ file, suspicious, share }: Extract<Question, { about: 'noData' }>): AskedWords {
  const percent = share < 0.001 ? 'less than 0.1' : (share * 100).toFixed(1);
  return {
    sentence: `${percent} % of the cells of ${file} hold ${suspicious}. What does that number mean?`,
    choices: [
      { words: 'there is no height there', answer: { noData: suspicious } },
      { words: 'it is a height like any other', answer: { noData: 'none' } },
    ],
  };
}

function unitWords({ file, lowest, highest, likely }: Extract<Question, { about: 'verticalUnit' }>): AskedWords {
  const inOrder = likely === null ? UNITS : [likely, ...UNITS.filter((unit) => unit !== likely)];
  return {
    sentence: `${file} holds numbers from ${lowest} to ${highest}. In which unit are these heights?`,
    choices: inOrder.map((verticalUnit) => ({ words: UNIT_WORDS[verticalUnit], answer: { verticalUnit } })),
  };
}
