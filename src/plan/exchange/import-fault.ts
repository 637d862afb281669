import type { Problem } from '../model/problem.ts';

/** Ends the reading of a file that cannot be imported at all; it never leaves `readImport`. */
export class ImportFault extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.code);
    this.problem = problem;
  }
}

export function importFault(code: string, path: string, found: string, expected: string): never {
  throw new ImportFault({ code, path, found, expected });
}
