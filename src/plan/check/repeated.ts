import { describe } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';

/** Ids that are used more than once: a problem for each use after the first. */
export function repeatedIds(entries: readonly { readonly id: string; readonly path: string }[]): readonly Problem[] {
  const seen = new Set<string>();
  const problems: Problem[] = [];
  for (const { id, path } of entries) {
    if (seen.has(id)) problems.push({ code: 'repeated-id', path, found: describe(id), expected: 'an id of its own' });
    seen.add(id);
  }
  return problems;
}
