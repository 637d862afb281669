import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { argv, exit, resourceUsage, stdout } from 'node:process';
import { openFileSource } from '../../src/cli/input/node-io.ts';
import { readImport } from '../../src/plan/exchange/read-import.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { FileRefusal } from '../../src/terrain/bytes/file-refusal.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import type { Outcome } from '../../src/units/outcome.ts';
import type { FileToRead, WhatCameOfIt } from './read-apart.ts';

// Reads files one after the other in a process of its own, telling before and after each, with the memory taken so far.

/** Cells a side of the windows that are read of a DEM: at its first corner and at its last. */
const WINDOW = 512;

const READERS = { elevation, points, plan, gluttony } as const;

async function elevation(path: string): Promise<string> {
  const file = await openFileSource(path);
  try {
    const opened = await openElevation(file, { crs: 32630 });
    if (opened.kind === 'question') return 'question';
    if (opened.kind === 'refused') return opened.problems.map(({ code }) => code).join(' ');
    const { columns, rows } = opened.value;
    const size = { columns: Math.min(WINDOW, columns), rows: Math.min(WINDOW, rows) };
    for (const [column, row] of [
      [0, 0],
      [columns - size.columns, rows - size.rows],
    ] as const) {
      const block = await opened.value.read({ column, row, ...size });
      if (!block.heights.every(Number.isFinite)) return 'a height that is no number';
    }
    return 'read';
  } catch (error) {
    if (error instanceof FileRefusal) return error.problem.code;
    throw error;
  } finally {
    await file.close();
  }
}

async function points(path: string): Promise<string> {
  return outcomeOf(readImport({ name: path, bytes: new Uint8Array(readFileSync(path)) }));
}

async function plan(path: string): Promise<string> {
  return outcomeOf(readPlan(readFileSync(path, 'utf8')));
}

function outcomeOf(read: Outcome<unknown>): string {
  return read.ok ? 'read' : read.problems.map(({ code }) => code).join(' ');
}

/** Not a reader: takes as many MB as its path says, to show that the measure sees them. */
async function gluttony(path: string): Promise<string> {
  const taken = Array.from({ length: Number(path) }, () => new Uint8Array(2 ** 20).fill(1));
  return taken.every((bytes) => bytes[0] === 1) ? 'read' : '';
}

function tell(what: WhatCameOfIt): void {
  stdout.write(`${JSON.stringify(what)}\n`);
}

async function readAll(files: readonly FileToRead[]): Promise<void> {
  tell({ name: 'nothing', fate: 'read', peak: peak() });
  for (const { name, kind, path } of files) {
    tell({ name, fate: null, peak: peak() });
    const fate = await READERS[kind](path);
    tell({ name, fate, peak: peak() });
  }
}

/** The most memory that this process has had at once, MB. */
const peak = () => resourceUsage().maxRSS / 1024;

const [, self = '', list = '', role] = argv;
// A process starts with the peak of the one that made it, which may be large; this small one lies between the two.
if (role === 'reader') await readAll(JSON.parse(readFileSync(list, 'utf8')));
else exit(spawnSync(process.execPath, [self, list, 'reader'], { stdio: 'inherit' }).status ?? 1);
