import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { GridFile } from '../grid/grid-files.ts';
import type { TerrainNote } from '../grid/ground.ts';
import { groundAt } from './ground-at.ts';

/** What is needed of a sampled line to find where it passes from one file to another. */
export interface MarkedLine {
  readonly at: Float64Array;
  readonly lon: Float64Array;
  readonly lat: Float64Array;
  readonly ground: Float64Array;
  readonly known: Uint8Array;
  readonly marks: Uint16Array;
}

/** Two neighbouring samples from different files: the second of them, and the step in height between the files there. */
interface Seam {
  readonly sample: number;
  readonly step: Metres | null;
}

/** A line that passes to and fro between two files says so once, with its largest step. */
export async function seamNotes(
  line: MarkedLine,
  files: readonly GridFile[],
  signal?: AbortSignal,
): Promise<TerrainNote[]> {
  const byPair = new Map<string, { readonly pair: readonly [GridFile, GridFile]; readonly seams: Seam[] }>();
  for (const sample of crossings(line)) {
    const pair = [line.marks[sample - 1], line.marks[sample]].map((mark) => files.find((f) => f.mark === mark));
    const [from, to] = pair[0] && pair[1] && pair[0].mark > pair[1].mark ? [pair[1], pair[0]] : pair;
    if (!from || !to) continue;
    const key = `${from.mark} ${to.mark}`;
    const entry = byPair.get(key) ?? { pair: [from, to], seams: [] };
    byPair.set(key, entry);
    const turned = from.mark === line.marks[sample - 1] ? 1 : -1;
    const step = entry.seams.length < MOST_STEPS ? await stepAt(line, sample, pair, signal) : null;
    entry.seams.push({ sample, step: step === null ? null : turned * step });
  }
  return [...byPair.values()].map(({ pair, seams }) => noteOf(line, pair, seams));
}

/** Steps are looked up at this many crossings of a pair of files at most. */
const MOST_STEPS = 16;

function crossings({ marks, known }: MarkedLine): number[] {
  const found: number[] = [];
  for (let i = 1; i < marks.length; i++) {
    if (known[i] === 1 && known[i - 1] === 1 && marks[i] !== marks[i - 1]) found.push(i);
  }
  return found;
}

function noteOf(line: MarkedLine, [from, to]: readonly [GridFile, GridFile], seams: readonly Seam[]): TerrainNote {
  const worst = seams.reduce((a, b) => (Math.abs(b.step ?? 0) > Math.abs(a.step ?? 0) ? b : a));
  const data = { from: from.name, to: to.name, crossings: seams.length, at_m: valueAt(line.at, worst.sample) };
  return { code: 'seam', data: worst.step === null ? data : { ...data, step_m: worst.step } };
}

/** How much higher the second file stands than the first: where they overlap by both heights, else from the slopes on either side. */
async function stepAt(
  line: MarkedLine,
  sample: number,
  [from, to]: readonly (GridFile | undefined)[],
  signal: AbortSignal | undefined,
): Promise<Metres | null> {
  if (!from || !to) return null;
  const places = besideSeam(line, sample);
  const here = await groundAt([from.placed], places, signal);
  const there = await groundAt([to.placed], places, signal);
  const both = places.flatMap((_, k) => {
    const a = here[k]?.ground ?? null;
    const b = there[k]?.ground ?? null;
    return a === null || b === null ? [] : [b - a];
  });
  return both.length > 0 ? mean(both) : stepFromSlopes(line, sample);
}

/** Samples on either side, a little off the seam, where neither file is held at its edge. */
function besideSeam({ at, lon, lat }: MarkedLine, sample: number): Position[] {
  const beside = Array.from({ length: FOR_SLOPE }, (_, k) => [-BLENDED - 1 - k, BLENDED + k]).flat();
  const inside = beside.map((k) => sample + k).filter((i) => i >= 0 && i < at.length);
  return inside.map((i) => ({ lon: valueAt(lon, i), lat: valueAt(lat, i) }));
}

const mean = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0) / values.length;

/** Samples that bilinear interpolation may have drawn across the seam, and how many beyond them give the slope. */
const BLENDED = 2;
const FOR_SLOPE = 4;

/** Both sides drawn on straight to the seam: the difference there; null where either side is too short. */
function stepFromSlopes(line: MarkedLine, sample: number): Metres | null {
  const middle = (valueAt(line.at, sample - 1) + valueAt(line.at, sample)) / 2;
  const before = drawnOn(line, sample - 1 - BLENDED, -1, middle);
  const after = drawnOn(line, sample + BLENDED, 1, middle);
  return before === null || after === null ? null : after - before;
}

function drawnOn(line: MarkedLine, near: number, direction: 1 | -1, to: Metres): Metres | null {
  const far = near + direction * FOR_SLOPE;
  const { at, ground, known, marks } = line;
  if (known[near] !== 1 || known[far] !== 1 || marks[near] !== marks[far]) return null;
  const run = valueAt(at, far) - valueAt(at, near);
  if (run === 0) return null;
  const slope = (valueAt(ground, far) - valueAt(ground, near)) / run;
  return valueAt(ground, near) + slope * (to - valueAt(at, near));
}
