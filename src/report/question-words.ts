import type { OpenAnswers, Question } from '../terrain/open-answers.ts';
import type { HeightUnit } from '../terrain/vertical-unit.ts';

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
export const EPSG_PATTERN = '(?:[Ee][Pp][Ss][Gg]:)?\\s*[0-9]{4,6}';

/** The answer to the question for a CRS; null for a text that is no code. */
export function epsgAnswer(text: string): AnswerChoice['answer'] | null {
  const code = new RegExp(`^${EPSG_PATTERN}$`).test(text.trim())
    ? Number(/[0-9]+$/.exec(text.trim())?.[0])
    : Number.NaN;
  return Number.isInteger(code) ? { crs: code } : null;
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
