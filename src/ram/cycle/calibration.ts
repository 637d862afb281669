import type { Outcome } from '../../units/outcome.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import type { Cycle } from './lumped-cycle.ts';
import type { RamSystem } from './ram-system.ts';
import { settingFor } from './valve-setting.ts';
import { efficiencies, type RamRun } from './yield.ts';

/** What a measured run of the pump says about the model. */
export interface Calibration {
  /** Measured efficiency over the modelled one at the same intake and heads; usually below 1. */
  readonly yieldFactor: Ratio;
  /** Weight of the waste valve, as a head, that gives the measured intake. */
  readonly weightHead: Metres;
  readonly measuredEfficiency: Ratio;
  readonly modelledEfficiency: Ratio;
}

/** Fits the model to a measured intake and delivery, or says why the figures cannot belong to this ram. */
export function calibration(ram: RamSystem, stroke: Metres, measured: RamRun): Outcome<Calibration> {
  const found = efficiencies(measured);
  if (!found.ok) return found;
  const setting = settingFor(ram, measured, { most: measured.driveFlow, stroke });
  if (!setting.ok) return unlike(`no setting: ${setting.because}`);
  const taken = setting.setting.cycle.driveFlow;
  if (taken < measured.driveFlow * (1 - intakeTolerance)) {
    return unlike(`${digits(measured.driveFlow)} m³/s, the model takes at most ${digits(taken)}`);
  }
  const modelledEfficiency = setting.setting.cycle.dAubuisson;
  return {
    ok: true,
    value: {
      yieldFactor: found.value.dAubuisson / modelledEfficiency,
      weightHead: setting.setting.weightHead,
      measuredEfficiency: found.value.dAubuisson,
      modelledEfficiency,
    },
  };
}

/** Delivery of a modelled cycle after calibration, never past what the fall can lift. */
export function calibratedDelivery(
  cycle: Pick<Cycle, 'driveFlow' | 'dAubuisson'>,
  heads: { readonly fall: Metres; readonly deliveryHead: Metres },
  yieldFactor: Ratio,
): CubicMetresPerSecond {
  const efficiency = Math.min(1, cycle.dAubuisson * yieldFactor);
  return (efficiency * cycle.driveFlow * heads.fall) / heads.deliveryHead;
}

/** How far the measured intake may exceed what the model can take before the ram is thought to be another one. */
const intakeTolerance = 0.1;

function unlike(found: string): Outcome<never> {
  const expected = 'an intake that this drive pipe and waste valve can have';
  return { ok: false, problems: [{ code: 'measured-run-does-not-fit', path: 'driveFlow', found, expected }] };
}

function digits(value: number): string {
  return String(Number(value.toPrecision(4)));
}
