import type { QuantityKind } from '../../units/kind.ts';
import type { Judged } from '../findings/finding.ts';
import type { Finding, MeasureFirst } from '../result/evaluation.ts';
import { Doubt } from '../spread/doubt.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { type Unknown, unknowns } from '../spread/unknowns.ts';
import { Z90, Z975 } from '../statistics/normal.ts';
import { measuredByHand, withFiles } from './measure-by-hand.ts';

/** Least ± worth asking of a level on a farm: a builder's level or a water hose over a few sights. Common practice, no source. */
const FINEST_LEVEL = 0.02;

/** Least ± worth asking of a spring, as a share of what it gives: a bucket and a watch, a few times over. Common practice, no source. */
const FINEST_BUCKET = 0.05;

/** Share of a finding's doubt that a measurement must take away to count as settling it. */
const SETTLING_SHARE = 0.25;

/** Share of the delivery's doubt, as far as a visit can take it away, below which a measurement is not worth listing by itself. */
const LISTING_SHARE = 0.1;

const WEIGHT: Record<Finding['bears'], number> = { running: 1, safety: 1, yield: 0.7, practice: 0.2 };

/** ± (95 %) that would settle the findings: their distance from the limit, as far as the quantity moves them. */
function aimFor(doubt: Doubt, unknown: Unknown, settled: readonly Judged[]): number | null {
  if (unknown.kind === 'pump') return null;
  const present = Z975 * unknown.deviation;
  const aims = settled.flatMap(({ finding, output }) => {
    const { value, limit } = finding;
    if (output === null || value === null || limit === null) return [];
    const reach = limit < value.likely ? value.likely - value.low : value.high - value.likely;
    const mine = reach * Math.sqrt(doubt.shareTaken(unknown, output));
    return mine > 0 ? [(present * Math.abs(value.likely - limit)) / mine / 2] : [];
  });
  const floor = unknown.kind === 'level' ? FINEST_LEVEL : Math.max(present / 4, FINEST_BUCKET * unknown.likely);
  return Math.max(floor, Math.min(present / 2, ...aims));
}

const KIND: Record<Unknown['kind'], QuantityKind> = { level: 'height', flow: 'flow', pump: 'share' };

/** Outputs whose spread the owner cares about most: the delivery to every place with a line. */
function deliveryOutputs({ model, layout }: SolvedSystem): number[] {
  return model.destinations.flatMap((d, i) => (d.loss ? [layout.destination(i, 'delivery')] : []));
}

/** Trouble of a measurement, 0 to 1: minutes with a bucket, an hour with a level along a line. Common practice, no source. */
const TROUBLE: Readonly<Record<Unknown['quantity'], number>> = {
  'source-yield': 0.1,
  fall: 0.3,
  'standpipe-level': 0.3,
  'trough-level': 0.5,
  lift: 0.7,
  'summit-level': 0.8,
  'pump-efficiency': 1,
};

/** At equal worth the one with less trouble goes first. */
const TROUBLE_WEIGHT = 0.15;

interface Worth {
  readonly unknown: Unknown;
  readonly settled: readonly Judged[];
  readonly share: number;
  /** The same of what can be learned by then: before a pump runs, without what only a running one shows. */
  readonly part: number;
  readonly score: number;
}

/** What a measurement is worth now: the open findings it would settle and the doubt about the delivery it takes away. */
function worthOf(
  doubt: Doubt,
  unknown: Unknown,
  context: { readonly open: readonly Judged[]; readonly deliveries: readonly number[] },
): Worth {
  const taken = (j: Judged) => (j.output === null ? 0 : doubt.shareTaken(unknown, j.output));
  const settled = context.open.filter((j) => taken(j) >= SETTLING_SHARE);
  const share = context.deliveries.reduce((most, o) => Math.max(most, doubt.shareTaken(unknown, o)), 0);
  const part = context.deliveries.reduce((most, o) => Math.max(most, doubt.partTaken(unknown, o)), 0);
  const worth = settled.reduce((sum, j) => sum + WEIGHT[j.finding.bears] * taken(j), 0) + share / 2;
  return { unknown, settled, share, part, score: worth * (1 - TROUBLE_WEIGHT * TROUBLE[unknown.quantity]) };
}

function entryOf(doubt: Doubt, { unknown, settled, share }: Worth): MeasureFirst {
  const spread = Z90 * unknown.deviation;
  return {
    quantity: unknown.quantity,
    about: unknown.about,
    settles: [...new Set(settled.map((j) => j.finding.code))],
    share,
    expected: { low: unknown.likely - spread, likely: unknown.likely, high: unknown.likely + spread },
    aim: aimFor(doubt, unknown, settled),
    unit: KIND[unknown.kind],
  };
}

/**
 * Measurements in order of worth, each judged with those before it already taken. What a pump really yields is last: it can
 * only be measured on one that runs. Before it comes what a tape settles and the delivery does not hang on.
 */
function ranked(system: SolvedSystem, open: readonly Judged[]): MeasureFirst[] {
  const doubt = new Doubt(system);
  const context = { open, deliveries: deliveryOutputs(system) };
  const all: readonly Unknown[] = unknowns(system);
  // A pump that nobody has chosen is not there to be measured, and one that was measured is not asked for again.
  const measurable = system.site.plan.pump !== null && system.model.each.runs.fitted === 0;
  const running = all.filter((u) => u.kind === 'pump' && measurable);
  const beforehand = all.filter((u) => u.kind !== 'pump');
  const list: MeasureFirst[] = [];
  for (const choice of [beforehand, running]) {
    if (choice === running) list.push(...measuredByHand(system, open, { running: false }));
    const left = new Set<Unknown>(choice);
    while (left.size > 0) {
      const [best] = [...left].map((u) => worthOf(doubt, u, context)).toSorted((a, b) => b.score - a.score);
      if (!best || (best.settled.length === 0 && best.part < LISTING_SHARE)) break;
      list.push(entryOf(doubt, best));
      doubt.take(best.unknown);
      left.delete(best.unknown);
    }
  }
  const settled = new Set(list.flatMap(({ settles }) => settles));
  const left = open.filter(({ finding }) => !settled.has(finding.code));
  return withFiles(system, open, [...list, ...measuredByHand(system, left, { running: true })]);
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
  return [
    ...first,
    ...ranked(
      system,
      judged.filter((j) => j.finding.verdict === 'measure'),
    ),
  ];
}
