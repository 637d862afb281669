import type { Problem } from '../../units/outcome.ts';

/** Thrown inside the reader where a file cannot be read as it should; opening turns it into an outcome. */
export class FileRefusal extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(`${problem.path}: ${problem.code}: found ${problem.found}, expected ${problem.expected}`);
    this.name = 'FileRefusal';
    this.problem = problem;
  }
}

/** What is wrong, where in the file (the name of a tag, key or block), what was found and what was expected. */
export interface RefusalParts {
  readonly code: string;
  readonly where: string;
  readonly found: string | number;
  readonly expected: string;
}

export function refuse(parts: RefusalParts): never {
  throw new FileRefusal({
    code: parts.code,
    path: parts.where,
    found: shown(String(parts.found)),
    expected: parts.expected,
  });
}

const MOST_SHOWN = 160;

/** What a file holds may be long or full of control characters; a sentence shows little of it. */
function shown(found: string): string {
  const plain = found.replace(/\p{Cc}+/gu, ' ').trim();
  return plain.length <= MOST_SHOWN ? plain || 'nothing' : `${plain.slice(0, MOST_SHOWN)}…`;
}

/** The refusal with the file's name put before the place in the file. */
export function refusalInFile(file: string, refusal: FileRefusal): FileRefusal {
  const { problem } = refusal;
  if (problem.path === file || problem.path.startsWith(`${file}: `)) return refusal;
  return new FileRefusal({ ...problem, path: problem.path === '' ? file : `${file}: ${problem.path}` });
}
