import type { Outcome, Problem } from '../model/problem.ts';
import type { PartCodec } from './part.ts';
import { readBySchema } from './schema-problems.ts';

/** Reads one part from its file side. */
export function readPart<Part, File>(codec: PartCodec<Part, File>, value: unknown, path: string): Outcome<Part> {
  const file = readBySchema(codec.schema, value, path);
  return file.ok ? { ok: true, value: codec.fromFile(file.value) } : file;
}

/** The value, or null with its problems added to the list. */
export function accepted<T>(outcome: Outcome<T>, problems: Problem[]): T | null {
  if (outcome.ok) return outcome.value;
  problems.push(...outcome.problems);
  return null;
}
