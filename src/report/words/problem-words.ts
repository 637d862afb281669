import type { Problem } from '../../units/outcome.ts';

/** A problem as one sentence: where, what was found and what was expected. */
export function problemSentence(problem: Problem): string {
  const sentence = `found ${problem.found}; expected ${problem.expected}.`;
  return problem.path === '' ? sentence.replace('f', 'F') : `${problem.path}: ${sentence}`;
}

/** Units as the keys of a plan file end with them. */
const FILE_UNITS: Readonly<Record<string, string>> = {
  mm: 'mm',
  m: 'm',
  L: 'litres',
  L_per_min: 'L/min',
  L_per_day: 'L/day',
  kPa: 'kPa',
  C: '°C',
  s: 'seconds',
};

/** The first of several problems as the field says it that caused them: without its place in a file. Null when there is none. */
export function firstProblem(problems: readonly Problem[]): string | null {
  const [first] = problems;
  if (first === undefined) return null;
  const unit = Object.keys(FILE_UNITS).find((ending) => first.path.replace(/\[\d+\]$/, '').endsWith(`_${ending}`));
  const inUnit = unit === undefined ? '' : ` (in ${FILE_UNITS[unit]})`;
  return `Found ${first.found}; expected ${first.expected}${inUnit}.`;
}
