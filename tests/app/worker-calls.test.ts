import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openTerrain } from '../../src/app/client/terrain-client.ts';
import { WorkerCalls, type WorkerEnd, WorkerLost, WorkerRefusal } from '../../src/app/client/worker-calls.ts';
import type { FromWorker, ToWorker } from '../../src/worker/messages.ts';

/** A worker that does what the test says. */
class PlayedWorker implements WorkerEnd {
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  readonly asked: ToWorker[] = [];
  terminated = false;
  postMessage(message: ToWorker): void {
    this.asked.push(message);
  }
  terminate(): void {
    this.terminated = true;
  }
  say(message: FromWorker): void {
    this.onmessage?.(new MessageEvent('message', { data: message }));
  }
}

const PATIENCE = 1000;
const GROUND = { positions: [] };
const TERRAIN = { files: [], crs: '', outline: [] } as never;

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('questions to a worker', () => {
  test('are answered in whatever order the answers come', async () => {
    const worker = new PlayedWorker();
    const calls = new WorkerCalls(worker);
    const first = calls.ask('ground-at', GROUND, { patience: PATIENCE });
    const second = calls.ask('ground-at', GROUND, { patience: PATIENCE });
    worker.say({ id: 2, kind: 'answer', answer: [] });
    worker.say({ id: 1, kind: 'failed', reason: 'no heights' });
    await expect(second).resolves.toEqual([]);
    await expect(first).rejects.toThrow('no heights');
  });

  test('that fail with something known against them say what', async () => {
    const worker = new PlayedWorker();
    const asked = new WorkerCalls(worker).ask('ground-at', GROUND, { patience: PATIENCE });
    const problem = { code: 'address-changed', path: 'dem.tif', found: 'another version', expected: 'the one opened' };
    worker.say({ id: 1, kind: 'failed', reason: 'changed', problem });
    const failure = await asked.catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(WorkerRefusal);
    expect(failure).toMatchObject({ message: 'changed', problem });
  });

  test('a worker that says nothing for too long is stopped, and everyone who waits is told', async () => {
    const worker = new PlayedWorker();
    const calls = new WorkerCalls(worker);
    const one = calls.ask('ground-at', GROUND, { patience: PATIENCE });
    const other = calls.ask('ground-at', GROUND, { patience: 10 * PATIENCE });
    vi.advanceTimersByTime(PATIENCE);
    await expect(one).rejects.toThrow(WorkerLost);
    await expect(other).rejects.toThrow(WorkerLost);
    expect(worker.terminated).toBe(true);
    await expect(calls.ask('ground-at', GROUND, { patience: PATIENCE })).rejects.toThrow(WorkerLost);
  });

  test('progress is a sign of life', async () => {
    const worker = new PlayedWorker();
    const seen: number[] = [];
    const calls = new WorkerCalls(worker);
    const options = { patience: PATIENCE, onProgress: ({ done }: { done: number }) => seen.push(done) };
    const open = calls.ask('open-terrain', { files: [], answers: {}, accuracy: null }, options);
    for (const done of [1, 2, 3]) {
      vi.advanceTimersByTime(0.9 * PATIENCE);
      worker.say({ id: 1, kind: 'progress', progress: { done, of: 3 } });
    }
    worker.say({ id: 1, kind: 'answer', answer: { kind: 'refused', problems: [] } });
    await expect(open).resolves.toEqual({ kind: 'refused', problems: [] });
    expect(seen).toEqual([1, 2, 3]);
  });

  test('a cancelled caller is let go at once and the worker is told', async () => {
    const worker = new PlayedWorker();
    const stop = new AbortController();
    const calls = new WorkerCalls(worker);
    const asked = calls.ask('ground-at', GROUND, { patience: PATIENCE, signal: stop.signal });
    stop.abort();
    await expect(asked).rejects.toThrow();
    expect(worker.asked[1]).toEqual({ id: 1, kind: 'cancel' });
  });

  test('a worker that dies takes its callers along with a reason', async () => {
    const worker = new PlayedWorker();
    const asked = new WorkerCalls(worker).ask('ground-at', GROUND, { patience: PATIENCE });
    worker.onerror?.({ message: 'out of memory' } as ErrorEvent);
    await expect(asked).rejects.toThrow('out of memory');
  });
});

describe('opening a terrain', () => {
  const file = { name: 'hill.tif' } as File;

  test('that hangs is a refusal that names the file, and its worker is ended', async () => {
    const worker = new PlayedWorker();
    const opening = openTerrain([file], {}, { spawn: () => worker });
    await vi.advanceTimersByTimeAsync(120_000);
    expect(await opening).toMatchObject({ kind: 'refused', problems: [{ code: 'reader-hung', path: 'hill.tif' }] });
    expect(worker.terminated).toBe(true);
  });

  test('that is cancelled rejects and ends its worker', async () => {
    const worker = new PlayedWorker();
    const stop = new AbortController();
    const opening = openTerrain([file], {}, { spawn: () => worker, signal: stop.signal });
    stop.abort();
    await expect(opening).rejects.toThrow();
    expect(worker.terminated).toBe(true);
  });

  test('that asks something of the user ends its worker and hands the question on', async () => {
    const worker = new PlayedWorker();
    const opening = openTerrain([file], {}, { spawn: () => worker });
    const question = { kind: 'question', about: 'rowsRun', file: 'hill.tif' } as const;
    worker.say({ id: 1, kind: 'answer', answer: { kind: 'question', questions: [question] } });
    expect(await opening).toEqual({ kind: 'question', questions: [question] });
    expect(worker.terminated).toBe(true);
  });

  test('opens the same files again after its worker was lost', async () => {
    const workers: PlayedWorker[] = [];
    const spawn = () => {
      const worker = new PlayedWorker();
      workers.push(worker);
      return worker;
    };
    const opening = openTerrain([file], {}, { spawn });
    workers[0]?.say({ id: 1, kind: 'answer', answer: { kind: 'opened', about: TERRAIN } });
    const opened = await opening;
    if (opened.kind !== 'opened') throw new Error(opened.kind);
    const lost = opened.value.groundAt([]);
    lost.catch(() => undefined);
    await vi.advanceTimersByTimeAsync(120_000);
    await expect(lost).rejects.toThrow(WorkerLost);
    const again = opened.value.groundAt([]);
    const second = workers[1];
    expect(second?.asked[0]).toMatchObject({ kind: 'open-terrain', question: { files: [{ name: 'hill.tif' }] } });
    second?.say({ id: 1, kind: 'answer', answer: { kind: 'opened', about: TERRAIN } });
    await vi.advanceTimersByTimeAsync(0);
    second?.say({ id: 2, kind: 'answer', answer: [] });
    await expect(again).resolves.toEqual([]);
  });

  test('once closed answers nothing more', async () => {
    const worker = new PlayedWorker();
    const opening = openTerrain([file], {}, { spawn: () => worker });
    worker.say({ id: 1, kind: 'answer', answer: { kind: 'opened', about: TERRAIN } });
    const opened = await opening;
    if (opened.kind !== 'opened') throw new Error(opened.kind);
    opened.value.close();
    await expect(opened.value.groundAt([])).rejects.toThrow('closed');
    expect(worker.terminated).toBe(true);
  });
});
