import type { Position } from '../../geodesy/position.ts';
import type { Corners, CrsCandidate } from '../../terrain/georeference/crs-candidate.ts';
import type { OpenAnswers, Question } from '../../terrain/georeference/open-answers.ts';
import { type HeightUnit, METRES_PER } from '../../terrain/georeference/vertical-unit.ts';
import { positionWords } from './position-words.ts';
import { percentWords } from './terrain-note-words.ts';

/** One answer in words, and the answer itself. */
export interface AnswerChoice {
  readonly words: string;
  readonly answer: Omit<OpenAnswers, 'memory' | 'signal'>;
  /** Marked as the one that the evidence speaks for. */
  readonly likely?: boolean;
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

/** What a unit of heights is called. */
export const unitWords = (unit: HeightUnit): string => UNIT_WORDS[unit];

const UNITS: readonly HeightUnit[] = [
  'metre',
  'foot',
  'US survey foot',
  'centimetre',
  'decimetre',
  'British foot 1936',
];

const CODE = '(?:[Ee][Pp][Ss][Gg]:)?\\s*[0-9]{4,6}';
const ZONE = '(?:[Ww][Gg][Ss]\\s*84)?[\\s,]*[Uu][Tt][Mm]\\s*(?:[Zz]one)?\\s*[0-9]{1,2}\\s*[NSns]';

/** What a code looks like when it is typed, with or without the registry's name, or a zone such as UTM 17N, as a form checks it. */
export const EPSG_PATTERN = `\\s*(?:${CODE}|${ZONE})\\s*`;

/** The answer to the question for a CRS; null for a text that is no code. */
export function epsgAnswer(text: string): AnswerChoice['answer'] | null {
  const code = epsgCode(text);
  return code === null ? null : { crs: code };
}

/** The code in a text; null where it holds none. */
export function epsgCode(text: string): number | null {
  const code = new RegExp(`^\\s*${CODE}\\s*$`).test(text) ? /[0-9]+/.exec(text)?.[0] : undefined;
  if (code !== undefined) return Number(code);
  const zone = /utm\s*(?:zone)?\s*(\d{1,2})\s*([ns])\s*$/i.exec(text);
  const number = Number(zone?.[1] ?? 0);
  return zone === null || number < 1 || number > ZONES ? null : utmCode(number, zone[2]?.toLowerCase() === 's');
}

/** Zones of the Universal Transverse Mercator, six degrees wide each from 180° west. */
const ZONES = 60;
const ZONE_WIDTH = 6;

/** EPSG code of a zone on WGS 84: 326 and the zone in the north, 327 and the zone in the south (EPSG Geodetic Parameter Dataset). */
const utmCode = (zone: number, south: boolean): number => (south ? 32700 : 32600) + zone;

/** A system that a place is usually mapped in, to be offered. */
export interface OfferedSystem {
  readonly code: number;
  readonly words: string;
}

/** The UTM zone of a place, its neighbours, and degrees: what an unnamed picture of it is most often in. */
export function systemsAt({ lon, lat }: Position): readonly OfferedSystem[] {
  const zone = Math.min(ZONES, Math.max(1, Math.floor((lon + 180) / ZONE_WIDTH) + 1));
  const round = (number: number) => ((number - 1 + ZONES) % ZONES) + 1;
  const zones = [zone, round(zone - 1), round(zone + 1)].map((number): OfferedSystem => {
    return { code: utmCode(number, lat < 0), words: `UTM ${number}${lat < 0 ? 'S' : 'N'}` };
  });
  const [own, ...beside] = zones;
  return [...(own === undefined ? [] : [own]), { code: 4326, words: 'degrees (WGS 84)' }, ...beside];
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
  const unitless = questions.filter(isUnitless);
  const others = questions.filter((question) => question.about !== 'crs' && !isUnitless(question));
  const alone = [
    ...unitsTogether(unitless),
    ...others.map((question) => ({ ...askedWords(question), files: [question.file], corners: [] })),
  ];
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

/** Whether nothing speaks against metres but that nothing says so either. */
const isUnitless = (question: Question): question is UnitQuestion =>
  question.about === 'verticalUnit' && question.because === 'not-stated';

/** Tiles of one survey leave out their unit together. */
function unitsTogether(questions: readonly UnitQuestion[]): AskedTogether[] {
  const [first, ...others] = questions;
  if (first === undefined) return [];
  const files = questions.map(({ file }) => file);
  const widest: UnitQuestion = {
    ...first,
    file: files.join(', '),
    lowest: Math.min(...questions.map(({ lowest }) => lowest)),
    highest: Math.max(...questions.map(({ highest }) => highest)),
  };
  const words = askedWords(others.length === 0 ? first : widest);
  return [{ ...words, files, corners: [] }];
}

/** Where to find a code. */
export const EPSG_HINT =
  'The page that the file came from names it, often with its projection, such as UTM zone 33N (EPSG:32633). UTM 33N is read too.';

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
      return askedUnit(question);
    case 'entry':
      return {
        sentence: `${question.file} holds several elevation files. Which one is meant?`,
        choices: question.entries.map((entry) => ({ words: entry, answer: { entry } })),
      };
    case 'eightBit':
      return {
        sentence: `${question.file} holds numbers of 8 bits, from ${question.lowest} to ${question.highest}, as shaded relief and aerial pictures do, and names no unit. Are these heights?`,
        choices: [{ words: 'they are heights', answer: { eightBit: 'heights' } }],
      };
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

type UnitQuestion = Extract<Question, { about: 'verticalUnit' }>;

function askedUnit(question: UnitQuestion): AskedWords {
  const { file, lowest, highest, likely, evidence } = question;
  const inOrder = likely === null ? UNITS : [likely, ...UNITS.filter((unit) => unit !== likely)];
  const range = `${roundedNumber(lowest)} to ${roundedNumber(highest)}`;
  return {
    sentence: `${file} holds numbers from ${range}. In which unit are these heights? ${unitEvidenceWords(question)}`,
    choices: inOrder.map((verticalUnit) => ({
      words: UNIT_WORDS[verticalUnit],
      answer: evidence.stated ? { verticalUnit, instead: ['verticalUnit'] } : { verticalUnit },
      ...(verticalUnit === likely && { likely: true }),
    })),
  };
}

/** What speaks for one unit or another. */
export function unitEvidenceWords({ because, evidence, likely }: UnitQuestion): string {
  const { slopeAsMetres, product } = evidence;
  const others =
    likely === null || likely === 'metre' || likely === 'foot' ? (['foot'] as const) : (['foot', likely] as const);
  const slopes = others.map((unit) => `as ${UNIT_WORDS[unit]} ${percentWords(slopeAsMetres * METRES_PER[unit])}`);
  return [
    `As metres the ground here slopes ${percentWords(slopeAsMetres)} on the whole, ${slopes.join(', ')}.`,
    ...(BECAUSE[because] === undefined ? [] : [BECAUSE[because]]),
    ...(product === null ? [] : [`Its name is that of ${product}, whose heights are in metres.`]),
  ].join(' ');
}

const BECAUSE: Readonly<Partial<Record<UnitQuestion['because'], string>>> = {
  'grid-in-feet': 'Its map grid is laid out in feet.',
  'heights-implausible': 'As metres they would be no heights on earth.',
  'numbers-with-gaps':
    'They are whole numbers three and four apart, as whole metres are once they are turned into feet.',
};

/** A stored number as it is told: whole from ten on. */
export const roundedNumber = (value: number): string =>
  Math.abs(value) >= 10 ? value.toFixed(0) : String(Number(value.toPrecision(2)));
