import { criterion } from '../handbook/practice-criteria.ts';
import type { PumpChoice, PumpSheet } from '../plan/plan.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../units/quantity.ts';
import { Z90 } from './normal.ts';

/** How a pump answers: what it can take, and how much of the water's work reaches the delivery. */
export interface PumpBehaviour {
  readonly driveBore: Metres | null;
  readonly intakeLeast: CubicMetresPerSecond;
  readonly intakeMost: CubicMetresPerSecond;
  readonly intakeSet: CubicMetresPerSecond | null;
  /** D'Aubuisson efficiency at u standard deviations from the likely one. */
  efficiency(u: number): Ratio;
  readonly leastDeliveryHead: Metres | null;
}

interface Band {
  readonly low: Ratio;
  readonly likely: Ratio;
  readonly high: Ratio;
}

/** Planning band of D'Aubuisson's efficiency where nothing better is known. */
function planningBand(): Band {
  return {
    low: criterion('efficiency-low').value,
    likely: criterion('efficiency-likely').value,
    high: criterion('efficiency-high').value,
  };
}

/** Two half normal distributions that meet at the likely value, cut off at 0 and 1, which no pump passes. */
function bandAt(band: Band): (u: number) => Ratio {
  const below = (band.likely - band.low) / Z90;
  const above = (band.high - band.likely) / Z90;
  return (u) => Math.min(1, Math.max(0, band.likely + u * (u < 0 ? below : above)));
}

/**
 * Share of the likely efficiency by which a single measured run may differ from the next: readings by bucket, wear, another
 * setting. Common practice, no source.
 */
const MEASURED_RUN_SPREAD: Ratio = 0.1;

function bandOf(sheet: PumpSheet): Band {
  const run = sheet.measured;
  if (run) {
    const seen = (run.delivery * run.deliveryHead) / (run.driveFlow * run.fall);
    return { low: seen * (1 - MEASURED_RUN_SPREAD), likely: seen, high: Math.min(1, seen * (1 + MEASURED_RUN_SPREAD)) };
  }
  return sheet.efficiency ?? planningBand();
}

/** A pump as its sheet describes it. */
function sheetBehaviour(sheet: PumpSheet): PumpBehaviour {
  return { ...sheet, efficiency: bandAt(bandOf(sheet)) };
}

/** No pump chosen yet: it takes whatever the source gives, at the planning band's efficiency. */
function anyPump(): PumpBehaviour {
  return {
    driveBore: null,
    intakeLeast: 0,
    intakeMost: Number.MAX_VALUE,
    intakeSet: null,
    efficiency: bandAt(planningBand()),
    leastDeliveryHead: null,
  };
}

/** How the plan's pump answers. */
export function behaviourOf(pump: PumpChoice | null): PumpBehaviour {
  if (pump === null) return anyPump();
  if (pump.kind === 'sheet') return sheetBehaviour(pump);
  throw new Error('found a ram described by its parts, expected a pump sheet');
}
