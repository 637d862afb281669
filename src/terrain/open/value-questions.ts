import { refuse } from '../bytes/file-refusal.ts';
import type { OpenAnswers, Question } from '../georeference/open-answers.ts';
import { type HeightUnit, METRES_PER, type StatedUnit } from '../georeference/vertical-unit.ts';
import { isPlausible } from '../tiff/heights-from-samples.ts';
import type { ValueSurvey } from './value-tally.ts';

/** What the questions look at beside the stored numbers themselves. */
export interface ValueContext {
  readonly file: string;
  readonly answers: OpenAnswers;
  readonly stated: StatedUnit;
  readonly gridInFeet: boolean;
  /** Width of a cell on the ground, m, near enough to judge a slope. */
  readonly cellMetres: number;
  readonly noDataText: string | null;
  /** The stored number's scale and offset before any unit. */
  readonly scale: number;
  readonly offset: number;
}

/** Share of implausible cells from which the unit is doubted rather than single numbers. Common practice, no source. */
const MOSTLY = 0.5;
/** Rise over run that half of all neighbouring cells of open ground never reach: 72 degrees. Common practice, no source. */
const IMPOSSIBLE_SLOPE = 3;
/** Share of exact zeros from which they are taken for a filling rather than for ground. Common practice, no source. */
const FILLING_SHARE = 0.005;
/** How far above 0 the rest must stay for zeros to look out of place, m. Common practice, no source. */
const CLEAR_OF_ZERO = 20;

/** The first question that the stored numbers raise; null where they look like heights in the stated unit. */
export function questionFromValues(survey: ValueSurvey, context: ValueContext): Question | null {
  if (survey.valid === 0) return null;
  return unitQuestion(survey, context) ?? noDataQuestion(survey, context);
}

function unitQuestion(survey: ValueSurvey, context: ValueContext): Question | null {
  const { answers, stated, gridInFeet, cellMetres, file, scale } = context;
  if (answers.verticalUnit !== undefined) return null;
  const base = {
    kind: 'question',
    about: 'verticalUnit',
    file,
    lowest: survey.lowest,
    highest: survey.highest,
  } as const;
  const many = survey.implausible > MOSTLY * survey.valid && survey.distinctImplausible > 2;
  if (many)
    return { ...base, because: 'heights-implausible', likely: smallerUnit(survey, context) ?? refuseAll(survey) };
  if (stated.evidence !== 'assumed') return null;
  if (gridInFeet) return { ...base, because: 'grid-in-feet', likely: null };
  const slope = (survey.typicalStep * Math.abs(scale)) / cellMetres;
  if (slope > IMPOSSIBLE_SLOPE) return { ...base, because: 'slopes-implausible', likely: smallerUnit(survey, context) };
  return null;
}

function refuseAll(survey: ValueSurvey): never {
  return refuse({
    code: 'no-heights',
    where: '',
    found: `numbers from ${survey.lowest} to ${survey.highest}`,
    expected: 'heights of some ground on earth in some unit',
  });
}

/** The decimal part of a metre in which the numbers would be heights. */
function smallerUnit(survey: ValueSurvey, { scale, offset }: ValueContext): HeightUnit | null {
  const fits = (unit: HeightUnit) =>
    isPlausible((survey.lowest * scale + offset) * METRES_PER[unit]) &&
    isPlausible((survey.highest * scale + offset) * METRES_PER[unit]);
  if (fits('centimetre')) return 'centimetre';
  return null;
}

function noDataQuestion(survey: ValueSurvey, context: ValueContext): Question | null {
  const { answers, file, noDataText } = context;
  if (answers.noData !== undefined) return null;
  const base = { kind: 'question', about: 'noData', file, stated: noDataText } as const;
  const odd = survey.commonImplausible;
  if (odd !== null) return { ...base, suspicious: odd.raw, share: odd.count / survey.valid };
  const zerosStandOut =
    noDataText === null &&
    survey.zeros > FILLING_SHARE * survey.valid &&
    survey.zeros < survey.valid &&
    survey.lowestButZero * context.scale + context.offset > CLEAR_OF_ZERO;
  return zerosStandOut ? { ...base, suspicious: 0, share: survey.zeros / survey.valid } : null;
}
