import type { OpenAnswers, Stated } from '../../terrain/georeference/open-answers.ts';
import type { HeightUnit } from '../../terrain/georeference/vertical-unit.ts';
import type { Flags } from './flags.ts';
import { InputError } from './io.ts';

/** An elevation file of `--dem` and what was said about it alone. */
export interface DemOperand {
  readonly path: string;
  readonly answers: OpenAnswers;
}

const UNIT_WORDS: Readonly<Record<string, HeightUnit>> = {
  metre: 'metre',
  foot: 'foot',
  'us-survey-foot': 'US survey foot',
  'british-foot-1936': 'British foot 1936',
  centimetre: 'centimetre',
  decimetre: 'decimetre',
};

function chosen<T>(name: string, text: string, words: Readonly<Record<string, T>>): T {
  const found = Object.hasOwn(words, text) ? words[text] : undefined;
  if (found !== undefined) return found;
  throw new InputError(`${name}: found ${text}, expected ${Object.keys(words).join(', ')}`);
}

function numberOf(name: string, text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value)) return value;
  throw new InputError(`${name}: found ${text}, expected a number`);
}

function noDataOf(name: string, text: string): NonNullable<OpenAnswers['noData']> {
  if (text === 'none') return 'none';
  const numbers = text.split('/').map((each) => numberOf(name, each));
  const [only] = numbers;
  return numbers.length === 1 && only !== undefined ? only : numbers;
}

function epsgCode(name: string, text: string): number {
  const code = /^(?:EPSG:)?(\d{4,6})$/i.exec(text)?.[1];
  if (code !== undefined) return Number(code);
  throw new InputError(`${name}: found ${text}, expected an EPSG code such as EPSG:27700`);
}

const insteadOf = (stated: Stated, answer: OpenAnswers): OpenAnswers => ({ ...answer, instead: [stated] });

/** What can be said about a file: by a flag for all of them, or after a comma for one. `name` is how it was said. */
const READ: Readonly<Record<string, (name: string, text: string) => OpenAnswers>> = {
  band: (name, text) => ({ band: numberOf(name, text) }),
  'no-data': (name, text) => ({ noData: noDataOf(name, text) }),
  'no-data-instead': (name, text) => insteadOf('noData', { noData: noDataOf(name, text) }),
  unit: (name, text) => ({ verticalUnit: chosen(name, text, UNIT_WORDS) }),
  'unit-instead': (name, text) => insteadOf('verticalUnit', { verticalUnit: chosen(name, text, UNIT_WORDS) }),
  'rows-run': (name, text) => ({ rowsRun: chosen(name, text, { south: 'south', north: 'north' } as const) }),
  crs: (name, text) => ({ crs: epsgCode(name, text) }),
  'crs-instead': (name, text) => insteadOf('crs', { crs: epsgCode(name, text) }),
  '8-bit': (name, text) => ({ eightBit: chosen(name, text, { heights: 'heights' } as const) }),
  entry: (_, text) => ({ entry: text }),
};

/** Each flag with the word that says the same of one file. */
const FLAGS: Readonly<Record<string, keyof typeof READ>> = {
  '--band': 'band',
  '--no-data': 'no-data',
  '--no-data-instead': 'no-data-instead',
  '--dem-unit': 'unit',
  '--dem-unit-instead': 'unit-instead',
  '--rows-run': 'rows-run',
  '--dem-crs': 'crs',
  '--dem-crs-instead': 'crs-instead',
  '--8-bit': '8-bit',
};

export const ANSWER_FLAGS = Object.keys(FLAGS);

function together(said: readonly OpenAnswers[]): OpenAnswers {
  const instead = said.flatMap((answer) => answer.instead ?? []);
  return Object.assign({}, ...said, instead.length > 0 ? { instead } : {});
}

/** What the flags say about every file. */
export function answersFrom(flags: Flags): OpenAnswers {
  const said = Object.entries(FLAGS).flatMap(([flag, word]) => {
    const text = flags.text(flag);
    return text === null ? [] : [READ[word]?.(flag, text) ?? {}];
  });
  return together(said);
}

/** A word and its value after a comma; a comma within a file's name is none. */
const SAID = new RegExp(`,(${Object.keys(READ).join('|')})=([^,]*)$`);

/** Reads `tile.tif,unit=foot,crs=EPSG:27700`: the path, and what is said about that file alone. */
export function demOperand(text: string, forAll: OpenAnswers): DemOperand {
  const said: OpenAnswers[] = [];
  let path = text;
  for (let found = SAID.exec(path); found !== null; found = SAID.exec(path)) {
    const [all, word = '', value = ''] = found;
    said.unshift(READ[word]?.(`${path.slice(0, -all.length)}: ${word}`, value) ?? {});
    path = path.slice(0, -all.length);
  }
  return { path, answers: together([forAll, ...said]) };
}
