import type { Problem } from '../../units/outcome.ts';
import type { ByteSource } from '../bytes/byte-source.ts';
import type { OpenAnswers, Question } from '../georeference/open-answers.ts';
import type { TerrainSource } from '../grid/terrain-source.ts';
import { openElevation } from '../open/open-elevation.ts';
import type { OpenedGrid } from '../open/opened-grid.ts';
import type { GridTerrain } from './ground-window.ts';
import { terrainFromGrids } from './terrain-from-grids.ts';

/** How files are to be opened. */
export interface TerrainOrder {
  /** What the user said about a file, by its name. */
  readonly answers: Readonly<Record<string, OpenAnswers>>;
  /** Name of an accuracy class; null infers one from the files. */
  readonly accuracy: string | null;
  readonly signal?: AbortSignal;
  /** Called before each file with how many are done. */
  readonly onFile?: (done: number) => void;
}

export type TerrainOutcome =
  | { readonly kind: 'opened'; readonly terrain: GridTerrain; readonly sources: readonly TerrainSource[] }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] }
  | { readonly kind: 'question'; readonly questions: readonly Question[] };

/** Opens every file, gathers what only the user can say, and makes one terrain of them. */
export async function openTerrain(files: readonly ByteSource[], order: TerrainOrder): Promise<TerrainOutcome> {
  const sources: TerrainSource[] = [];
  const questions: Question[] = [];
  const problems: Problem[] = [];
  for (const [done, file] of files.entries()) {
    order.onFile?.(done);
    const own = Object.hasOwn(order.answers, file.name) ? order.answers[file.name] : undefined;
    const opened = await openElevation(file, { ...own, ...(order.signal && { signal: order.signal }) });
    if (opened.kind === 'opened') sources.push(sourceOf(file.name, opened.value));
    else if (opened.kind === 'question') questions.push(opened.question);
    else problems.push(...opened.problems);
  }
  if (problems.length > 0) return { kind: 'refused', problems };
  if (questions.length > 0) return { kind: 'question', questions };
  const terrain = await terrainFromGrids(sources, { accuracy: order.accuracy });
  if (!terrain.ok) return { kind: 'refused', problems: terrain.problems };
  return { kind: 'opened', terrain: terrain.value, sources };
}

function sourceOf(file: string, grid: OpenedGrid): TerrainSource {
  const { verticalUnit, verticalDatum, notes } = grid.facts;
  return { file, grid, verticalUnit, verticalDatum, notes };
}
