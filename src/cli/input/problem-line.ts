import type { Problem } from '../../units/outcome.ts';

/** A problem in one line. */
export function problemLine(problem: Problem): string {
  return `${problem.path}: found ${problem.found}, expected ${problem.expected}${mendedBy(problem)}`;
}

/** Refusals that a flag would mend. */
const MENDED_BY: Readonly<Record<string, string>> = {
  crs: '--dem-crs',
  'crs-unknown': '--dem-crs',
  'crs-not-computable': '--dem-crs',
  datum: '--dem-crs',
  projection: '--dem-crs',
};

function mendedBy({ code }: Problem): string {
  const flag = MENDED_BY[code];
  return flag === undefined ? '' : `: say with ${flag}`;
}
