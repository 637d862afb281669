import type { QuantityKind } from '../units/kind.ts';
import type { Finding, MeasureFirst } from './evaluation.ts';
import type { Judged } from './findings/finding.ts';
import { Z90, Z975 } from './normal.ts';
import type { SolvedSystem } from './system.ts';
import { type Unknown, unknowns } from './unknowns.ts';

/** Least ± worth asking of a level on a farm: a builder's level or a water hose over a few sights. Common practice, no source. */
const FINEST_LEVEL = 0.02;

/** Share of a finding's doubt that a measurement must take away to count as settling it. */
const SETTLING_SHARE = 0.25;

/** Share of the delivery's doubt below which a measurement is not worth listing by itself. */
const LISTING_SHARE = 0.1;

const WEIGHT: Record<Finding['bears'], number> = { running: 1, safety: 1, yield: 0.7, practice: 0.2 };

/** Share of an output's variance that knowing a quantity would take away. */
export function shareTaken(system: SolvedSystem, unknown: Unknown, output: number): number {
  const { heights, source, efficiency, losses } = system.spread.variance(output);
  const total = heights + source + efficiency + losses;
  if (total <= 0) return 0;
  if (unknown.kind === 'flow') return source / total;
  if (unknown.kind === 'pump') return efficiency / total;
  const { along, variance } = levelCovariance(system, unknown, output);
  return variance > 0 ? along ** 2 / variance / total : 0;
}

/** Covariance of an output with a level difference, and the variance of that difference. */
function levelCovariance(system: SolvedSystem, unknown: Extract<Unknown, { kind: 'level' }>, output: number) {
  const { model, spread } = system;
  const n = model.nodes.length;
  const k = (i: number, j: number) => spread.covariance[i * n + j] ?? 0;
  const { from, to } = unknown;
  const along = system
    .nodesOf(output)
    .reduce((sum, node) => sum + spread.slope(output, node) * (k(node, to) - k(node, from)), 0);
  return { along, variance: k(to, to) + k(from, from) - 2 * k(from, to) };
}

/** ± (95 %) that would settle a finding: the distance from its limit, as far as the quantity moves it. */
function aimFor(system: SolvedSystem, unknown: Unknown, judged: readonly Judged[]): number | null {
  const present = Z975 * unknown.deviation;
  if (present <= 0) return null;
  const aims = judged.flatMap(({ finding, output }) => {
    if (output === null || finding.value === null || finding.limit === null) return [];
    const doubt =
      finding.limit < finding.value.likely
        ? finding.value.likely - finding.value.low
        : finding.value.high - finding.value.likely;
    const distance = Math.abs(finding.value.likely - finding.limit);
    const mine = doubt * Math.sqrt(shareTaken(system, unknown, output));
    return mine > 0 ? [(present * distance) / mine / 2] : [];
  });
  const floor = unknown.kind === 'level' ? FINEST_LEVEL : present / 10;
  const aim = Math.min(present / 2, ...aims);
  return Math.max(floor, aim);
}

const KIND: Record<Unknown['kind'], QuantityKind> = { level: 'height', flow: 'flow', pump: 'share' };

/** Outputs whose spread the owner cares about most: the delivery to every place that is not set aside. */
function deliveryOutputs({ model, layout }: SolvedSystem): number[] {
  return model.destinations.flatMap((d, i) => (d.loss ? [layout.destination(i, 'delivery')] : []));
}

function entry(
  system: SolvedSystem,
  unknown: Unknown,
  open: readonly Judged[],
): { entry: MeasureFirst; score: number } {
  const taken = (j: Judged) => (j.output === null ? 0 : shareTaken(system, unknown, j.output));
  const settled = open.filter((j) => taken(j) >= SETTLING_SHARE);
  const deliveries = deliveryOutputs(system);
  const share = deliveries.reduce((most, o) => Math.max(most, shareTaken(system, unknown, o)), 0);
  const score = settled.reduce((sum, j) => sum + WEIGHT[j.finding.bears] * taken(j), 0) + share / 2;
  const spread = Z90 * unknown.deviation;
  return {
    score,
    entry: {
      quantity: unknown.quantity,
      about: unknown.about,
      settles: [...new Set(settled.map((j) => j.finding.code))],
      share,
      expected: { low: unknown.likely - spread, likely: unknown.likely, high: unknown.likely + spread },
      aim: aimFor(system, unknown, settled),
      unit: KIND[unknown.kind],
    },
  };
}

/** Things that only a visit can show: ground without heights, a source nobody has timed. */
function blanks(judged: readonly Judged[]): MeasureFirst[] {
  const quantities: Readonly<Record<string, string>> = {
    'yield-unread': 'source-yield',
    'ground-unknown': 'ground',
    'point-unknown': 'ground',
  };
  return judged.flatMap(({ finding }) => {
    const quantity = quantities[finding.code];
    if (quantity === undefined) return [];
    const unit: QuantityKind = quantity === 'ground' ? 'height' : 'flow';
    return [{ quantity, about: finding.about, settles: [finding.code], share: 1, expected: null, aim: null, unit }];
  });
}

/**
 * What to measure on site, in order of worth: each quantity by how much of the doubt it takes away, from the findings that
 * are open and from the delivery. The same comparison that gave `measure` gives this list.
 */
export function measureFirst(system: SolvedSystem | null, judged: readonly Judged[]): MeasureFirst[] {
  const first = blanks(judged);
  if (system === null) return first;
  const open = judged.filter((j) => j.finding.verdict === 'measure');
  const ranked = unknowns(system)
    .map((unknown) => entry(system, unknown, open))
    .filter(({ entry: e }) => e.settles.length > 0 || e.share >= LISTING_SHARE)
    .toSorted((a, b) => b.score - a.score);
  return [...first, ...ranked.map((r) => r.entry)];
}
