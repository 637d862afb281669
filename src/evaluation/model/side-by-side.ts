import type { PumpBehaviour } from './pump-behaviour.ts';

/**
 * Equal pumps side by side as one: each on a drive pipe of its own from the same water, all into one delivery line. Together
 * they take what one takes times their number; each works as one does at its share of the flow.
 */
export function sideBySide(one: PumpBehaviour, count: number): PumpBehaviour {
  if (count === 1) return one;
  const { intakeLeast, intakeMost, intakeSet } = one;
  return {
    ...one,
    intakeLeast: count * intakeLeast,
    intakeMost: Math.min(Number.MAX_VALUE, count * intakeMost),
    intakeSet: intakeSet === null ? null : count * intakeSet,
    efficiency: (u, at) => one.efficiency(u, { ...at, flow: at.flow / count }),
  };
}
