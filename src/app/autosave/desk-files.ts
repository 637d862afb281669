import type { ElevationInput } from '../client/elevation-input.ts';
import { terrain, terrainFile } from '../state/store.ts';
import type { FilesToKeep } from './keeper.ts';
import { filesMissing } from './keeping-state.ts';
import { filesToKeep, handleOf, type KeptFile, referenceOf } from './kept-files.ts';
import type { FileReference } from './kept-work.ts';

/** The elevation files a desk lies on, and what to keep of them beside what is kept already. */
export interface DeskFiles {
  readonly references: readonly FileReference[];
  readonly toKeep: FilesToKeep | null;
}

const NONE: DeskFiles = { references: [], toKeep: null };

let reading: readonly ElevationInput[] = [];
let seen: typeof terrain.value = null;
let ofTerrain = NONE;
let ofDesk = NONE;

/** Learns which files the terrain was opened from: those that were being read when it came. */
export function followTerrainFiles(): void {
  if (terrainFile.value.kind === 'opening') reading = terrainFile.value.files;
  const opened = terrain.value;
  if (opened === null) {
    // The ground was let go, with a new plan that lies on none.
    if (seen !== null) [seen, ofTerrain, ofDesk] = [null, NONE, NONE];
    return;
  }
  if (opened === seen) return;
  seen = opened;
  ofTerrain = { references: reading.map(referenceOf), toKeep: filesToKeep(reading, handleOf) };
  ofDesk = ofTerrain;
  filesMissing.value = [];
}

/** The files of the desk: those of the terrain, or those a kept work waits for. */
export function deskFiles(): DeskFiles {
  return ofDesk;
}

/** Another plan lies on the terrain that is open. */
export function takeTerrainFiles(): void {
  ofDesk = ofTerrain;
  filesMissing.value = [];
}

/** Whether the terrain that is open is the one that was kept. */
export function isOpenTerrain(references: readonly FileReference[]): boolean {
  const key = (all: readonly FileReference[]) =>
    JSON.stringify(all.map(({ name, size, address }) => [name, size, address]));
  return key(references) === key(ofTerrain.references);
}

/** Holds on to the files of a kept work until they are open; a copy of a work keeps them once more. */
export function expectFiles(kept: readonly KeptFile[], references: readonly FileReference[]): void {
  const bare = kept.map((each): KeptFile => ({ ...each, bytes: null }));
  ofDesk = { references, toKeep: kept.length === 0 ? null : { whole: kept, bare } };
}
