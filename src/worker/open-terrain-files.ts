import { projectionOf } from '../geodesy/projection.ts';
import type { ElevationGrid } from '../terrain/grid.ts';
import type { GridTerrain } from '../terrain/ground-window.ts';
import { joinLattices } from '../terrain/mosaic.ts';
import { openTerrain } from '../terrain/open-terrain.ts';
import { type PlacedGrid, placedGrid } from '../terrain/placed-grid.ts';
import { blobSource } from './blob-source.ts';
import type { OpenResult, Question } from './messages.ts';
import type { Job } from './serve.ts';

export interface OpenedTerrainFiles {
  readonly terrain: GridTerrain;
  /** The grids behind it, for pictures of the ground. */
  readonly grids: readonly PlacedGrid[];
}

type Opening =
  | { readonly kind: 'opened'; readonly files: OpenedTerrainFiles }
  | Exclude<OpenResult<never>, { kind: 'opened' }>;

/** Opens the files as one terrain; neighbours on one lattice are drawn as one grid. */
export async function openTerrainFiles(question: Question<'open-terrain'>, job: Job): Promise<Opening> {
  const of = question.files.length;
  const opened = await openTerrain(
    question.files.map(({ name, blob }) => blobSource(name, blob)),
    {
      answers: question.answers,
      accuracy: question.accuracy,
      signal: job.signal,
      onFile: (done) => job.progress({ done, of }),
    },
  );
  if (opened.kind !== 'opened') return opened;
  const grids = await placedGrids(opened.sources.map(({ grid }) => grid));
  return { kind: 'opened', files: { terrain: opened.terrain, grids } };
}

async function placedGrids(grids: readonly ElevationGrid[]): Promise<PlacedGrid[]> {
  const placed: PlacedGrid[] = [];
  for (const grid of joinLattices(grids)) {
    const projection = await projectionOf(grid.crs);
    if (projection.ok) placed.push(placedGrid(grid, projection.value));
  }
  return placed;
}
