import { describe, expect, test, vi } from 'vitest';
import { FileRefusal } from '../../src/terrain/bytes/file-refusal.ts';
import type { FromWorker, ToWorker } from '../../src/worker/messages.ts';
import { type Handlers, JobQueue, type PageEnd, serve, transferables } from '../../src/worker/serve.ts';

/** A page's end that keeps what it is told, and hands the worker what the test says. */
function page() {
  const told: { message: FromWorker; transfer: Transferable[] }[] = [];
  const end: PageEnd = {
    postMessage: (message, transfer) => told.push({ message, transfer }),
    onmessage: null,
  };
  const ask = (data: ToWorker) => end.onmessage?.(new MessageEvent('message', { data }));
  const answered = async (count: number) => {
    while (told.length < count) await new Promise((resolve) => setTimeout(resolve, 1));
    return told.map(({ message }) => message);
  };
  return { end, told, ask, answered };
}

function handlers(some: Partial<Handlers>): Handlers {
  const none = () => Promise.reject(new Error('not asked for in this test'));
  return {
    'open-terrain': none,
    'ground-along': none,
    'ground-at': none,
    'propose-route': none,
    'reach-map': none,
    'reach-tile': none,
    'reach-at': none,
    'reach-line': none,
    'site-systems': none,
    reckon: none,
    compare: none,
    diagnose: none,
    'beat-course': none,
    'relief-tile': none,
    'slope-tile': none,
    'contour-tile': none,
    'area-contours': none,
    'open-picture': none,
    'picture-tile': none,
    'take-heights': none,
    'take-picture': none,
    ...some,
  };
}

const HERE = { lon: 11, lat: 47 };
const TILE = { z: 15, x: 1, y: 2 };
const DRY = { ground: 312, slope: 0.1, smoothing: 0, accuracy: null, file: null };

describe('the worker', () => {
  test('answers a question under its own number and moves the buffers instead of copying them', async () => {
    const { end, told, ask, answered } = page();
    const data = new ArrayBuffer(8);
    serve(end, handlers({ 'contour-tile': () => Promise.resolve({ data, interval: 5, tooFar: 'nothing' as const }) }));
    ask({ id: 7, kind: 'contour-tile', question: { tile: TILE, units: 'metric' } });
    expect(await answered(1)).toEqual([{ id: 7, kind: 'answer', answer: { data, interval: 5, tooFar: 'nothing' } }]);
    expect(told[0]?.transfer).toEqual([data]);
  });

  test('says what went wrong and goes on', async () => {
    const { end, ask, answered } = page();
    let asked = 0;
    const groundAt = () => {
      asked += 1;
      return asked === 1 ? Promise.reject(new Error('block 3: broken')) : Promise.resolve([]);
    };
    serve(end, handlers({ 'ground-at': groundAt }));
    ask({ id: 1, kind: 'ground-at', question: { positions: [HERE] } });
    await answered(1);
    ask({ id: 2, kind: 'ground-at', question: { positions: [HERE] } });
    expect(await answered(2)).toEqual([
      { id: 1, kind: 'failed', reason: 'block 3: broken' },
      { id: 2, kind: 'answer', answer: [] },
    ]);
  });

  test('tells what stands against it where the file itself does', async () => {
    const { end, ask, answered } = page();
    const problem = { code: 'address-changed', path: 'dem.tif', found: 'another version', expected: 'the one opened' };
    serve(end, handlers({ 'ground-at': () => Promise.reject(new FileRefusal(problem)) }));
    ask({ id: 1, kind: 'ground-at', question: { positions: [HERE] } });
    expect(await answered(1)).toMatchObject([{ id: 1, kind: 'failed', problem }]);
  });

  test('a tile that nobody waits for any more is not made', async () => {
    const { end, ask, answered } = page();
    const made: number[] = [];
    const contours: Handlers['contour-tile'] = ({ tile }) => {
      made.push(tile.x);
      return Promise.resolve({ data: new ArrayBuffer(0), interval: 1, tooFar: 'nothing' as const });
    };
    serve(end, handlers({ 'contour-tile': contours }));
    for (const x of [1, 2]) ask({ id: x, kind: 'contour-tile', question: { tile: { ...TILE, x }, units: 'us' } });
    ask({ id: 1, kind: 'cancel' });
    const replies = await answered(2);
    expect(made).toEqual([2]);
    expect(replies).toContainEqual({ id: 1, kind: 'cancelled' });
  });

  test('a job under way hears that it is cancelled', async () => {
    const { end, ask, answered } = page();
    const contours: Handlers['contour-tile'] = (_, { signal }) =>
      new Promise((_resolve, reject) => {
        signal.addEventListener('abort', () => reject(new Error('gave up')));
        ask({ id: 5, kind: 'cancel' });
      });
    serve(end, handlers({ 'contour-tile': contours }));
    ask({ id: 5, kind: 'contour-tile', question: { tile: TILE, units: 'metric' } });
    expect(await answered(1)).toEqual([{ id: 5, kind: 'cancelled' }]);
  });

  test('tells of a long job at intervals, so that the page knows it has not hung', async () => {
    vi.useFakeTimers();
    const { end, told, ask } = page();
    let done: () => void = () => undefined;
    const slow: Handlers['ground-at'] = () =>
      new Promise((resolve) => {
        done = () => resolve([]);
      });
    serve(end, handlers({ 'ground-at': slow }));
    ask({ id: 3, kind: 'ground-at', question: { positions: [HERE] } });
    await vi.advanceTimersByTimeAsync(9_000);
    expect(told.map(({ message }) => message.kind)).toEqual(['progress', 'progress']);
    done();
    await vi.advanceTimersByTimeAsync(20_000);
    vi.useRealTimers();
    expect(told.map(({ message }) => message.kind)).toEqual(['progress', 'progress', 'answer']);
  });

  test('reports progress under the number of the question', async () => {
    const { end, ask, answered } = page();
    const open: Handlers['open-terrain'] = (_, { progress }) => {
      progress({ done: 1, of: 3 });
      return Promise.resolve({ kind: 'refused', problems: [] });
    };
    serve(end, handlers({ 'open-terrain': open }));
    ask({ id: 9, kind: 'open-terrain', question: { files: [], answers: {}, accuracy: null } });
    expect((await answered(2))[0]).toEqual({ id: 9, kind: 'progress', progress: { done: 1, of: 3 } });
  });
});

describe('jobs that wait', () => {
  test('run the most urgent first and among equals the newest', async () => {
    const ran: string[] = [];
    const turns: (() => void)[] = [];
    const queue = new JobQueue(1, (run) => turns.push(run));
    const add = (urgency: number, name: string) =>
      queue.add(urgency, () => {
        ran.push(name);
        return Promise.resolve();
      });
    add(1, 'old tile');
    add(1, 'new tile');
    add(2, 'profile');
    for (let at = 0; at < 12; at += 1) {
      turns.shift()?.();
      await Promise.resolve();
      await Promise.resolve();
    }
    expect(ran).toEqual(['profile', 'new tile', 'old tile']);
  });
});

describe('what of an answer moves to the page', () => {
  test('are the buffers of its arrays, each once', () => {
    const shared = new Float64Array(4);
    const line = { at: shared, lon: new Float64Array(2), again: shared, voids: [{ first: 0 }], slope: 3 };
    expect(transferables(line)).toEqual([shared.buffer, line.lon.buffer]);
    expect(transferables(null)).toEqual([]);
    expect(transferables([DRY])).toEqual([]);
  });
});
