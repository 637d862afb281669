import { type GroundSamples, VOID } from './ground-samples.ts';

/** A rectangle of lattice squares without a height: first column and row, and the ones after the last. */
export interface VoidPatch {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The squares around void samples as few rectangles: runs along a row, joined with equal runs in the rows below. */
export function voidPatches(samples: GroundSamples): VoidPatch[] {
  const done: VoidPatch[] = [];
  let open = new Map<string, VoidPatch>();
  for (let row = 0; row < samples.side; row += 1) {
    const still = new Map<string, VoidPatch>();
    for (const [left, right] of voidRuns(samples, row)) {
      const key = `${left}-${right}`;
      const above = open.get(key);
      open.delete(key);
      still.set(key, { left, right, top: above?.top ?? row, bottom: row + 1 });
    }
    done.push(...open.values());
    open = still;
  }
  return [...done, ...open.values()];
}

function voidRuns(samples: GroundSamples, row: number): [number, number][] {
  const runs: [number, number][] = [];
  let start = -1;
  for (let column = 0; column <= samples.side; column += 1) {
    const isVoid = column < samples.side && samples.state[row * samples.side + column] === VOID;
    if (isVoid && start < 0) start = column;
    if (!isVoid && start >= 0) {
      runs.push([start, column]);
      start = -1;
    }
  }
  return runs;
}
