import { truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { damagedFiles, nastyNames, nastyPlaces } from '../plan/exchange/hostile-corpus.ts';
import { damagedPlans } from '../plan/hostile-plans.ts';
import { hollowFiles } from '../terrain/hollow-files.ts';
import * as dem from '../terrain/hostile-corpus.ts';
import { type FileToRead, inFolder, readApart, type WhatCameOfIt } from './read-apart.ts';

/** The most that a malformed file may make a process take, MB, all of the process counted. */
const MOST_MB = 512;
/** How long one file may keep its reader silent: as long as the page waits before it ends its worker, ms. */
const PATIENCE = 30_000;

interface Made {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Size on disk, the rest of it a hole; as many bytes as there are where nothing is said. */
  readonly size?: number;
}

async function readOfDisk(kind: FileToRead['kind'], made: readonly Made[]): Promise<readonly WhatCameOfIt[]> {
  return inFolder((folder) => {
    const files = made.map(({ name, bytes, size }, i): FileToRead => {
      const path = join(folder, `${i}`);
      writeFileSync(path, bytes);
      if (size !== undefined) truncateSync(path, size);
      return { name, kind, path };
    });
    return readApart(files, { folder, patience: PATIENCE });
  });
}

/** Files after which the process had taken more than it may, with how much. */
const gluttons = (told: readonly WhatCameOfIt[]) => told.filter(({ peak }) => peak > MOST_MB);

describe('a process that reads malformed files one after the other never takes more than 512 MB', () => {
  test('elevation files: cut off, damaged, impossible, endless, and packed to burst', async () => {
    const made = [
      ...dem.truncated(),
      ...dem.flipped(60),
      ...dem.overwritten(40),
      ...dem.impossible(),
      ...dem.cyclic(),
      ...dem.bombs(),
    ];
    const told = await readOfDisk('elevation', made);
    expect(told).toHaveLength(made.length + 1);
    expect(gluttons(told)).toEqual([]);
    expect(told.filter(({ fate }) => fate === 'unreadable' || fate === '')).toEqual([]);
  }, 300_000);

  test('elevation files of several gigabytes with next to nothing in them', async () => {
    const hollow = hollowFiles();
    const told = await readOfDisk('elevation', hollow);
    expect(gluttons(told)).toEqual([]);
    expect(told.slice(1).map(({ name, fate }) => [name, fate])).toEqual(hollow.map(({ name, code }) => [name, code]));
  }, 300_000);

  test('points, tracks, tables and plans', async () => {
    const points = [...damagedFiles(20_260_504), ...nastyPlaces(), ...nastyNames()];
    const told = await readOfDisk(
      'points',
      points.map(({ what, bytes }) => ({ name: what, bytes })),
    );
    const plans = damagedPlans(20_260_911).map(({ what, text }) => ({ name: what, bytes: Buffer.from(text) }));
    const ofPlans = await readOfDisk('plan', plans);
    expect([...gluttons(told), ...gluttons(ofPlans)]).toEqual([]);
    expect(told.length + ofPlans.length).toBeGreaterThan(400);
  }, 300_000);

  test('the measure counts what a reader takes', async () => {
    const told = await inFolder((folder) =>
      readApart([{ name: '300 MB', kind: 'gluttony', path: '300' }], { folder, patience: PATIENCE }),
    );
    const [before, after] = told.map(({ peak }) => peak);
    expect(after).toBeGreaterThan((before ?? 0) + 290);
    expect(before).toBeLessThan(150);
  }, 60_000);
});
