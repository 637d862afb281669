import { projectionOf } from '../geodesy/projection.ts';
import { openAddressSource } from '../terrain/bytes/address-source.ts';
import type { ByteSource } from '../terrain/bytes/byte-source.ts';
import type { ElevationGrid } from '../terrain/grid/grid.ts';
import { joinLattices } from '../terrain/grid/mosaic.ts';
import { type PlacedGrid, placedGrid } from '../terrain/grid/placed-grid.ts';
import type { GridTerrain } from '../terrain/ground/ground-window.ts';
import { openTerrain } from '../terrain/ground/open-terrain.ts';
import type { OpenedGrid } from '../terrain/open/opened-grid.ts';
import type { Outcome, Problem } from '../units/outcome.ts';
import { blobSource } from './blob-source.ts';
import { askSize, isHeard, rangeFetcher } from './fetch-range.ts';
import type { ElevationFile, FileAnswers, OpenResult, Progress, Question } from './messages.ts';
import type { Job } from './serve.ts';

export interface OpenedTerrainFiles {
  readonly terrain: GridTerrain;
  /** The files as they were opened. */
  readonly opened: readonly OpenedGrid[];
  /** The grids behind it, for pictures of the ground. */
  readonly grids: readonly PlacedGrid[];
}

type Opening =
  | { readonly kind: 'opened'; readonly files: OpenedTerrainFiles }
  | Exclude<OpenResult<never>, { kind: 'opened' }>;

/** Opens the files as one terrain; neighbours on one lattice are drawn as one grid. */
export async function openTerrainFiles(question: Question<'open-terrain'>, job: Job): Promise<Opening> {
  const tell = teller(job, question.files.length);
  const sources = await openSources(question.files, { signal: job.signal, onBytes: tell.bytes });
  if (!sources.ok) return { kind: 'refused', problems: sources.problems };
  const opened = await openTerrain(sources.value, {
    answers: askingUnits(question.answers, sources.value),
    accuracy: question.accuracy,
    ...(question.recorded && { recorded: question.recorded }),
    signal: job.signal,
    onFile: tell.file,
  });
  tell.end();
  if (opened.kind !== 'opened') return opened;
  const grids = await placedGrids(opened.sources.map(({ grid }) => grid));
  return { kind: 'opened', files: { terrain: opened.terrain, opened: opened.grids, grids } };
}

/** Somebody is there to be asked: a unit that nothing states is put to them, with the likely one marked. */
function askingUnits(answers: FileAnswers, files: readonly { readonly name: string }[]): FileAnswers {
  return Object.fromEntries(files.map(({ name }) => [name, { askUnit: true, ...answers[name] }]));
}

/** Least time between two words of bytes, ms. */
const TELL_EVERY = 200;

/** Tells how many files are read and how many bytes have come over the network, until the opening ends. */
function teller(job: Job, of: number) {
  let told: Progress | null = { done: 0, of };
  let come = 0;
  let at = 0;
  const tell = (next: Progress) => {
    told = next;
    at = performance.now();
    job.progress(next);
  };
  return {
    file: (done: number) => tell({ ...told, done, of }),
    bytes: (count: number) => {
      come += count;
      if (told !== null && performance.now() - at >= TELL_EVERY) tell({ ...told, bytes: come });
    },
    end: () => {
      told = null;
    },
  };
}

async function placedGrids(grids: readonly ElevationGrid[]): Promise<PlacedGrid[]> {
  const placed: PlacedGrid[] = [];
  for (const grid of joinLattices(grids)) {
    const projection = await projectionOf(grid.crs);
    if (projection.ok) placed.push(placedGrid(grid, projection.value));
  }
  return placed;
}

interface SourceOptions {
  readonly signal: AbortSignal;
  /** Hears of the bytes of all addresses as they come. */
  readonly onBytes: (count: number) => void;
}

/** A byte source for each file; a server that cannot be read from is a problem. */
export async function openSources(
  files: readonly ElevationFile[],
  { signal, onBytes }: SourceOptions,
): Promise<Outcome<readonly ByteSource[]>> {
  const sources: ByteSource[] = [];
  const problems: Problem[] = [];
  const ask = rangeFetcher(onBytes);
  for (const file of files) {
    if ('blob' in file) {
      sources.push(blobSource(file.name, file.blob));
      continue;
    }
    const opened = await openAddressSource(file.address, ask, { name: file.name, signal, askSize, isHeard });
    if (opened.ok) sources.push(opened.value);
    else problems.push(...opened.problems);
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: sources };
}
