/** What a system is weighed by: what arrives, and what it takes. */
export interface Weighed {
  /** Likely delivery; more is better. */
  readonly water: number;
  /** Metres of pipe, or money; less is better. */
  readonly outlay: number;
  /** What arrives with nine chances of ten. */
  readonly sure: number;
}

/** Those that no other beats in both water and outlay, by rising outlay. */
export function bestFront<T extends Weighed>(all: readonly T[]): T[] {
  const sorted = all.toSorted((a, b) => a.outlay - b.outlay || b.water - a.water);
  const front: T[] = [];
  let most = Number.NEGATIVE_INFINITY;
  for (const each of sorted) {
    if (each.water <= most) continue;
    most = each.water;
    front.push(each);
  }
  return front;
}

export type SystemName = 'most-water' | 'least-pipe' | 'surest' | 'between';

/** A name for each system of a front: the three that a user asks for first, and the others between them. */
export function namesOf(front: readonly Weighed[]): SystemName[] {
  const names: SystemName[] = front.map(() => 'between');
  const top = (of: (each: Weighed) => number): number =>
    front.reduce((best, each, k) => (of(each) > of(front[best] as Weighed) ? k : best), 0);
  if (front.length === 0) return names;
  names[top((each) => each.sure)] = 'surest';
  names[top((each) => -each.outlay)] = 'least-pipe';
  names[top((each) => each.water)] = 'most-water';
  return names;
}
