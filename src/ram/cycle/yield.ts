import type { Outcome, Problem } from '../../units/outcome.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';

/** Flows and heads of a ram at work; all positive, delivery head above the fall. */
export interface RamRun {
  /** Q: into the drive pipe. */
  readonly driveFlow: CubicMetresPerSecond;
  /** q: out of the delivery. */
  readonly delivery: CubicMetresPerSecond;
  readonly fall: Metres;
  readonly deliveryHead: Metres;
}

export interface Efficiencies {
  readonly dAubuisson: Ratio;
  readonly rankine: Ratio;
}

/**
 * Both efficiencies of a ram at work, or what makes the figures impossible.
 *
 * D'Aubuisson η_D = q h/(Q H); Rankine η_R = q (h − H)/((Q − q) H).
 * Q intake, q delivery, m³/s; H fall, h delivery head, m. Range: 0 ≤ q ≤ Q H/h.
 * Source: Virtual Labs NITK Surathkal, Hydraulic ram experiment, theory.
 */
export function efficiencies(run: RamRun): Outcome<Efficiencies> {
  const problems = [...headProblems(run), ...flowProblems(run)];
  if (problems.length > 0) return { ok: false, problems };
  const dAubuisson = (run.delivery * run.deliveryHead) / (run.driveFlow * run.fall);
  return { ok: true, value: { dAubuisson, rankine: rankineOf(dAubuisson, run.deliveryHead / run.fall) } };
}

/**
 * Delivery for a given D'Aubuisson efficiency: q = η_D Q H/h, or why it cannot be.
 *
 * η_D efficiency, 0 to 1; Q intake, m³/s; H fall, h delivery head, m, h > H.
 * Source: Virtual Labs NITK Surathkal, Hydraulic ram experiment, theory.
 */
export function deliveryOf(given: {
  readonly efficiency: Ratio;
  readonly driveFlow: CubicMetresPerSecond;
  readonly fall: Metres;
  readonly deliveryHead: Metres;
}): Outcome<CubicMetresPerSecond> {
  const problems = [...headProblems(given), ...atLeast('driveFlow', given.driveFlow, 0)];
  if (!(given.efficiency >= 0 && given.efficiency <= 1)) {
    problems.push(problem('efficiency-out-of-range', 'efficiency', given.efficiency, 'a share from 0 to 1'));
  }
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: (given.efficiency * given.driveFlow * given.fall) / given.deliveryHead };
}

/** η_R = η_D (r − 1)/(r − η_D), r = h/H > 1. */
export function rankineOf(dAubuisson: Ratio, headRatio: Ratio): Ratio {
  return (dAubuisson * (headRatio - 1)) / (headRatio - dAubuisson);
}

/** η_D = η_R r/(r − 1 + η_R), r = h/H > 1. */
export function dAubuissonOf(rankine: Ratio, headRatio: Ratio): Ratio {
  return (rankine * headRatio) / (headRatio - 1 + rankine);
}

/** What each litre of the supply cannot exceed as delivery: q/Q ≤ H/h. */
export function greatestShare(fall: Metres, deliveryHead: Metres): Ratio {
  return fall / deliveryHead;
}

function flowProblems(run: RamRun): Problem[] {
  const problems = [...atLeast('delivery', run.delivery, 0)];
  if (!(Number.isFinite(run.driveFlow) && run.driveFlow > 0)) {
    problems.push(problem('not-positive', 'driveFlow', run.driveFlow, 'more than 0 m³/s'));
    return problems;
  }
  const most = run.driveFlow * greatestShare(run.fall, run.deliveryHead);
  if (run.delivery > most * (1 + roundingAllowance)) {
    problems.push(
      problem('delivers-more-than-the-fall-can-lift', 'delivery', run.delivery, `at most Q H/h = ${digits(most)} m³/s`),
    );
  }
  return problems;
}

function headProblems(heads: { readonly fall: Metres; readonly deliveryHead: Metres }): Problem[] {
  if (!(Number.isFinite(heads.fall) && heads.fall > 0)) {
    return [problem('not-positive', 'fall', heads.fall, 'more than 0 m')];
  }
  if (!(Number.isFinite(heads.deliveryHead) && heads.deliveryHead > heads.fall)) {
    const expected = `more than the fall of ${digits(heads.fall)} m; below it the water arrives without a pump`;
    return [problem('delivery-not-above-source', 'deliveryHead', heads.deliveryHead, expected)];
  }
  return [];
}

function atLeast(path: string, value: number, least: number): Problem[] {
  if (Number.isFinite(value) && value >= least) return [];
  return [problem('negative', path, value, `at least ${least}`)];
}

/** A run whose figures were rounded to 12 digits is not refused at the limit itself. */
const roundingAllowance = 1e-12;

function problem(code: string, path: string, found: number, expected: string): Problem {
  return { code, path, found: String(found), expected };
}

function digits(value: number): string {
  return String(Number(value.toPrecision(6)));
}
