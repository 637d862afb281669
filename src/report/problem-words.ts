import type { Problem } from '../units/outcome.ts';

/** A problem as one sentence: where, what was found and what was expected. */
export function problemSentence(problem: Problem): string {
  const sentence = `found ${problem.found}; expected ${problem.expected}.`;
  return problem.path === '' ? sentence.replace('f', 'F') : `${problem.path}: ${sentence}`;
}

/** The first of several problems in words; null when there is none. */
export function firstProblem(problems: readonly Problem[]): string | null {
  const [first] = problems;
  return first === undefined ? null : problemSentence(first);
}
