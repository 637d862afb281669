import { refuse } from '../bytes/file-refusal.ts';
import type { OpenAnswers, Question, UnitEvidence } from '../georeference/open-answers.ts';
import { namedProduct } from '../georeference/product-name.ts';
import { type HeightUnit, METRES_PER, type StatedUnit } from '../georeference/vertical-unit.ts';
import { isPlausible } from '../tiff/heights-from-samples.ts';
import type { ValueSurvey } from './value-tally.ts';

/** What the questions look at beside the stored numbers themselves. */
export interface ValueContext {
  readonly file: string;
  readonly answers: OpenAnswers;
  readonly stated: StatedUnit;
  /** The foot that the grid is laid out in; null where it is not in feet. */
  readonly gridUnit: HeightUnit | null;
  /** Width of a cell on the ground, m, near enough to judge a slope. */
  readonly cellMetres: number;
  readonly noDataText: string | null;
  /** The stored number's scale and offset before any unit. */
  readonly scale: number;
  readonly offset: number;
  /** Whether the samples are of 8 bits without a sign and are not said to be heights by a unit, a scale or a zero level. */
  readonly maybePicture: boolean;
}

/** Share of implausible cells from which the unit is doubted rather than single numbers. Common practice, no source. */
const MOSTLY = 0.5;
/** Typical rise over run that open ground as a whole does not reach, even in high mountains. Common practice, no source. */
const IMPOSSIBLE_SLOPE = 0.7;
/** Share of exact zeros from which they are taken for a filling rather than for ground. Common practice, no source. */
const FILLING_SHARE = 0.005;
/** How far above 0 the rest must stay for zeros to look out of place, m. Common practice, no source. */
const CLEAR_OF_ZERO = 20;

/** The first question that the stored numbers raise; null where they look like heights in the stated unit. */
export function questionFromValues(survey: ValueSurvey, context: ValueContext): Question | null {
  if (survey.valid === 0) return null;
  return pictureQuestion(survey, context) ?? unitQuestion(survey, context) ?? noDataQuestion(survey, context);
}

/** Shaded relief, aerial pictures and land cover come in 8 bits without a sign; heights hardly ever do. */
function pictureQuestion(
  { lowest, highest }: ValueSurvey,
  { file, answers, maybePicture }: ValueContext,
): Question | null {
  if (!maybePicture || answers.eightBit !== undefined) return null;
  return { kind: 'question', about: 'eightBit', file, lowest, highest };
}

/** What speaks for the unit of the heights, apart from what the file states. */
export function unitEvidence(survey: ValueSurvey, context: ValueContext): UnitEvidence {
  const { scale, cellMetres, file, stated } = context;
  return {
    slopeAsMetres: (survey.typicalStep * Math.abs(scale)) / cellMetres,
    product: namedProduct(file, cellMetres)?.title ?? null,
    stated: stated.evidence !== 'assumed',
  };
}

function unitQuestion(survey: ValueSurvey, context: ValueContext): Question | null {
  const { answers, stated, gridUnit, file } = context;
  const evidence = unitEvidence(survey, context);
  const many = survey.implausible > MOSTLY * survey.valid && survey.distinctImplausible > 2;
  if (answers.verticalUnit !== undefined && (!evidence.stated || answers.instead?.includes('verticalUnit'))) {
    return many ? refuseAll(survey) : null;
  }
  const { lowest, highest } = survey;
  const base = { kind: 'question', about: 'verticalUnit', file, lowest, highest, evidence } as const;
  if (many) {
    const likely = likelyUnit(survey, context, evidence) ?? refuseAll(survey);
    return { ...base, because: 'heights-implausible', likely };
  }
  if (stated.evidence !== 'assumed') return null;
  if (gridUnit !== null) return { ...base, because: 'grid-in-feet', likely: gridUnit };
  if (evidence.slopeAsMetres > IMPOSSIBLE_SLOPE) {
    return { ...base, because: 'slopes-implausible', likely: likelyUnit(survey, context, evidence) };
  }
  if (survey.gapsOfFeet) return { ...base, because: 'numbers-with-gaps', likely: 'foot' };
  return answers.askUnit === true ? { ...base, because: 'not-stated', likely: 'metre' } : null;
}

function refuseAll(survey: ValueSurvey): never {
  return refuse({
    code: 'no-heights',
    where: '',
    found: `numbers from ${survey.lowest} to ${survey.highest}`,
    expected: 'heights of some ground on earth in some unit',
  });
}

/** The longest unit in which the numbers would be heights and their slopes those of some ground. */
function likelyUnit(
  survey: ValueSurvey,
  { scale, offset }: ValueContext,
  { slopeAsMetres }: UnitEvidence,
): HeightUnit | null {
  const fits = (unit: HeightUnit): boolean => {
    const metres = METRES_PER[unit];
    const within = (raw: number): boolean => isPlausible((raw * scale + offset) * metres);
    return within(survey.lowest) && within(survey.highest) && slopeAsMetres * metres <= IMPOSSIBLE_SLOPE;
  };
  const units = ['foot', 'decimetre', 'centimetre'] as const;
  return units.find(fits) ?? null;
}

function noDataQuestion(survey: ValueSurvey, context: ValueContext): Question | null {
  const { answers, file, noDataText } = context;
  if (answers.noData === 'none') return null;
  const base = { kind: 'question', about: 'noData', file, stated: noDataText } as const;
  const odd = survey.commonImplausible;
  if (odd !== null && odd.count > SPIKES) return { ...base, suspicious: odd.raw, share: odd.count / survey.valid };
  if (answers.noData !== undefined) return null;
  const zerosStandOut =
    noDataText === null &&
    survey.zeros > FILLING_SHARE * survey.valid &&
    survey.zeros < survey.valid &&
    survey.lowestButZero * context.scale + context.offset > CLEAR_OF_ZERO;
  return zerosStandOut ? { ...base, suspicious: 0, share: survey.zeros / survey.valid } : null;
}

/** So few cells with one number that no ground has are flaws, which become holes, and no way of saying "no height". */
const SPIKES = 2;
