import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import type { OpenAnswers, OpenOutcome } from '../georeference/open-answers.ts';
import type { Affine } from '../grid/grid.ts';
import { AsciiNumbers } from './ascii-numbers.ts';
import type { Beside } from './beside.ts';
import { openOutcome } from './open-failure.ts';
import { DEFAULT_MEMORY } from './open-geotiff.ts';
import { crsOfText, openInMemory } from './open-in-memory.ts';
import type { OpenedGrid } from './opened-grid.ts';

const PIECE_BYTES = 1024 * 1024;
const HEAD_BYTES = 512;
/** Bytes of a point: three numbers while they are read. */
const POINT_BYTES = 24;
/** How far off its place on the lattice a point may lie, in steps: decimals are rounded. */
const OFF_LATTICE = 0.05;
/** Share of a lattice's cells that must have a point. */
const LEAST_FILLED = 0.02;
/** Written where a point is missing. */
const HOLE = Number.NaN;

const NUMBER = '[-+]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?';
const BETWEEN = '[ \\t]*[,;][ \\t]*|[ \\t]+';
const POINT = new RegExp(`^[ \\t]*${NUMBER}(?:${BETWEEN})${NUMBER}(?:${BETWEEN})${NUMBER}[ \\t]*$`);
const TITLES =
  /^[\s"]*(?:x|e|east\w*|lon\w*)["\s,;]+(?:y|n|north\w*|lat\w*)["\s,;]+(?:z|h|elev\w*|height|alt\w*)["\s]*$/i;

/** Whether the first whole lines are points of three numbers, after a line of titles or none. */
export function looksLikeXyz(head: Uint8Array): boolean {
  const lines = linesOf(head);
  const points = TITLES.test(lines[0] ?? '') ? lines.slice(1) : lines;
  return points.length >= 2 && points.every((line) => POINT.test(line));
}

function linesOf(head: Uint8Array): string[] {
  const lines = String.fromCharCode(...head).split(/\r\n|\n|\r/);
  // The last may have been cut off.
  return lines.slice(0, -1).filter((line) => line.trim() !== '');
}

/** Opens a list of points x y z that lie on a regular grid; it is held in memory, and says nothing of its CRS. */
export function openXyz(
  source: ByteSource,
  answers: OpenAnswers = {},
  beside: Beside = {},
): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, () => open(source, answers, beside), answers.signal);
}

async function open(source: ByteSource, answers: OpenAnswers, beside: Beside): Promise<OpenedGrid> {
  const points = await readPoints(source, answers);
  const lattice = latticeOf(points);
  const crs = await crsOfText(source.name, lattice, { answers, beside });
  const values = laidOut(points, lattice);
  return openInMemory(source, { ...lattice, values, noData: null, crs, format: '.xyz' }, answers);
}

interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

async function readPoints(source: ByteSource, answers: OpenAnswers): Promise<Points> {
  const most = Math.floor((answers.memory ?? DEFAULT_MEMORY) / POINT_BYTES) * 2;
  // A point takes three figures and three signs between them at least.
  const room = Math.min(most, Math.ceil(source.size / 6));
  const all = new Float64Array(3 * room);
  const numbers = new AsciiNumbers((value, index) => {
    if (index >= all.length) {
      const expected = `at most ${most} points in this format; a GeoTIFF may be larger`;
      refuse({ code: 'memory', where: '', found: 'more points', expected });
    }
    all[index] = value;
  });
  let offset = await bytesOfTitles(source, answers);
  for (; offset < source.size; offset += PIECE_BYTES) {
    const length = Math.min(PIECE_BYTES, source.size - offset);
    const [piece = new Uint8Array(0)] = await source.read([{ offset, length }], answers.signal);
    answers.signal?.throwIfAborted();
    numbers.add(withBlanks(piece));
  }
  numbers.end();
  if (numbers.count % 3 !== 0 || numbers.count < 12) {
    refuse({
      code: 'xyz',
      where: '',
      found: `${numbers.count} numbers`,
      expected: 'three for each of four points or more',
    });
  }
  const count = numbers.count / 3;
  const part = (from: number): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => all[3 * i + from] as number);
  return { x: part(0), y: part(1), z: part(2) };
}

async function bytesOfTitles(source: ByteSource, answers: OpenAnswers): Promise<number> {
  const length = Math.min(HEAD_BYTES, source.size);
  const [head = new Uint8Array(0)] = await source.read([{ offset: 0, length }], answers.signal);
  const text = String.fromCharCode(...head);
  const [first = ''] = text.split(/[\r\n]/, 1);
  return TITLES.test(first) ? first.length : 0;
}

const COMMA = 44;
const SEMICOLON = 59;
const SPACE = 32;

function withBlanks(piece: Uint8Array): Uint8Array {
  return piece.map((byte) => (byte === COMMA || byte === SEMICOLON ? SPACE : byte));
}

interface Lattice {
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
}

/** The regular grid that the points lie on, rows from the north; points mean the middles of cells. */
function latticeOf({ x, y }: Points): Lattice {
  const across = axisOf(x, 'x');
  const down = axisOf(y, 'y');
  const cells = across.count * down.count;
  if (x.length < LEAST_FILLED * cells) {
    refuse({
      code: 'xyz',
      where: '',
      found: `${x.length} points on a grid of ${across.count} × ${down.count}`,
      expected: 'points on a regular grid, not scattered ones',
    });
  }
  const affine = {
    a: across.step,
    b: 0,
    c: across.first - across.step / 2,
    d: 0,
    e: -down.step,
    f: down.first + (down.count - 0.5) * down.step,
  };
  return { columns: across.count, rows: down.count, affine };
}

interface Axis {
  readonly first: number;
  readonly step: number;
  readonly count: number;
}

/** First place, step and number of places along an axis; the step is the least that occurs. */
function axisOf(places: Float64Array, name: string): Axis {
  const sorted = places.toSorted();
  const first = sorted[0] ?? 0;
  const last = sorted.at(-1) ?? 0;
  const tiny = (last - first) * 1e-9;
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < sorted.length; i++) {
    const gap = (sorted[i] as number) - (sorted[i - 1] as number);
    if (gap > tiny && gap < step) step = gap;
  }
  if (!Number.isFinite(step)) {
    refuse({ code: 'xyz', where: name, found: 'one place', expected: 'two or more' });
  }
  const count = Math.round((last - first) / step) + 1;
  // The mean over all steps is less rounded than the least of them.
  const exact = (last - first) / (count - 1);
  for (const place of places) {
    const at = (place - first) / exact;
    if (Math.abs(at - Math.round(at)) <= OFF_LATTICE) continue;
    refuse({
      code: 'xyz',
      where: name,
      found: `${place}, which is ${(at - Math.floor(at)).toFixed(2)} of a step of ${exact} off the others`,
      expected: 'points on a regular grid along the axes',
    });
  }
  return { first, step: exact, count };
}

function laidOut({ x, y, z }: Points, { columns, rows, affine }: Lattice): Float64Array {
  const values = new Float64Array(columns * rows).fill(HOLE);
  for (let i = 0; i < z.length; i++) {
    const column = Math.floor(((x[i] as number) - affine.c) / affine.a);
    const row = Math.floor(((y[i] as number) - affine.f) / affine.e);
    values[row * columns + column] = z[i] as number;
  }
  return values;
}
