import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { type Cycle, type LumpedRun, lumpedCycles, type StopReason } from './lumped-cycle.ts';
import {
  balancedWeight,
  type Closing,
  type Heads,
  liftingVelocity,
  type RamSystem,
  terminalVelocity,
} from './ram-system.ts';
import { valveClosing } from './valve-closing.ts';

/** Shares of the terminal velocity within which a waste valve is set; beyond, the beat gets erratic. Common practice, no source. */
export const closureRange = { least: 0.35, most: 0.9 } as const;

export interface Setting {
  /** Head that the weight or spring of the waste valve must balance. */
  readonly weightHead: Metres;
  /** v_c/v_∞ that it gives. */
  readonly closureRatio: Ratio;
  readonly cycle: Cycle;
}

export type SettingOutcome =
  | { readonly ok: true; readonly setting: Setting }
  /** It takes more than `most` even at its lightest setting; `takes` says how much. */
  | { readonly ok: false; readonly because: 'takes-too-much'; readonly takes: CubicMetresPerSecond }
  /** It runs at no setting. */
  | { readonly ok: false; readonly because: StopReason };

/** Settings looked at between the lightest and the heaviest. */
const settingsTried = 56;
/** Halvings that follow: the setting is then known to a millionth of the range. */
const halvings = 20;

/**
 * The heaviest setting of the waste valve at which the ram takes no more than a given flow.
 *
 * The intake rises with the setting but for small drops where one wave step more goes to the delivery, so the settings are
 * looked through from the heaviest down and the first that fits is refined.
 */
export function settingFor(
  ram: RamSystem,
  heads: Heads,
  given: { readonly most: CubicMetresPerSecond; readonly stroke: Metres },
): SettingOutcome {
  let over: Ratio | null = null;
  let last: LumpedRun | null = null;
  let takes: CubicMetresPerSecond | null = null;
  for (let i = settingsTried; i >= 0; i -= 1) {
    const share = closureRange.least + ((closureRange.most - closureRange.least) * i) / settingsTried;
    last = runAt(ram, heads, share, given.stroke);
    if (last.cycle === null) continue;
    if (last.cycle.driveFlow <= given.most) return refined(ram, heads, given, { fits: share, over });
    over = share;
    takes = last.cycle.driveFlow;
  }
  if (takes !== null) return { ok: false, because: 'takes-too-much', takes };
  return { ok: false, because: last?.stops ?? 'waste-valve-stays-shut' };
}

/** The run at a given setting, as the share of terminal velocity at which the waste valve starts to move. */
export function runAt(ram: RamSystem, heads: Heads, share: Ratio, stroke: Metres): LumpedRun {
  return runsAt(ram, heads.fall, { share, stroke })(heads.deliveryHead);
}

/** The runs at a given setting and fall for any delivery head. */
export function runsAt(
  ram: RamSystem,
  fall: Metres,
  { share, stroke }: { readonly share: Ratio; readonly stroke: Metres },
): (deliveryHead: Metres) => LumpedRun {
  return lumpedCycles(ram, fall, closingAt(ram, fall, share, stroke));
}

/** The weight, as a head, of a waste valve that starts to move at a share of the terminal velocity. */
export function weightAt(ram: RamSystem, fall: Metres, share: Ratio): Metres {
  return balancedWeight(ram, share * terminalVelocity(ram, fall));
}

function closingAt(ram: RamSystem, fall: Metres, share: Ratio, stroke: Metres): Closing {
  return { kind: 'stroke', weightHead: weightAt(ram, fall, share), stroke };
}

function refined(
  ram: RamSystem,
  heads: Heads,
  given: { readonly most: CubicMetresPerSecond; readonly stroke: Metres },
  bracket: { readonly fits: Ratio; readonly over: Ratio | null },
): SettingOutcome {
  let fits = bracket.fits;
  let over = bracket.over ?? bracket.fits;
  for (let i = 0; i < halvings && over > fits; i += 1) {
    const middle = (fits + over) / 2;
    const cycle = runAt(ram, heads, middle, given.stroke).cycle;
    if (cycle !== null && cycle.driveFlow <= given.most) fits = middle;
    else over = middle;
  }
  const run = runAt(ram, heads, fits, given.stroke);
  if (run.cycle === null) return { ok: false, because: run.stops ?? 'waste-valve-stays-shut' };
  const weightHead = balancedWeight(ram, fits * terminalVelocity(ram, heads.fall));
  return {
    ok: true,
    setting: { weightHead, closureRatio: run.cycle.shutVelocity / run.cycle.terminalVelocity, cycle: run.cycle },
  };
}

/** Share of the terminal velocity at which a waste valve of this weight starts to move. */
export function startShare(ram: RamSystem, fall: Metres, weightHead: Metres): Ratio {
  return liftingVelocity(ram, weightHead) / terminalVelocity(ram, fall);
}

/**
 * The weight, as a head, with which a waste valve of this stroke has shut at a given share of the terminal velocity; null
 * when it is too slow to shut so early.
 */
export function weightForRatio(ram: RamSystem, heads: Heads, closureRatio: Ratio, stroke: Metres): Metres | null {
  const terminal = terminalVelocity(ram, heads.fall);
  const shutAt = (share: Ratio) => valveClosing(ram, heads, closingAt(ram, heads.fall, share, stroke))?.shutVelocity;
  let early = lightest;
  let late = closureRatio;
  if ((shutAt(early) ?? terminal) > closureRatio * terminal) return null;
  for (let i = 0; i < halvings * 2; i += 1) {
    const middle = (early + late) / 2;
    if ((shutAt(middle) ?? terminal) > closureRatio * terminal) late = middle;
    else early = middle;
  }
  return balancedWeight(ram, early * terminal);
}

/** Smallest share of the terminal velocity at which a waste valve is thought to start moving. */
const lightest: Ratio = 0.01;
