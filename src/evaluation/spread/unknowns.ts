import { valueAt } from '../../units/value-at.ts';
import { Z90 } from '../statistics/normal.ts';
import type { SolvedSystem } from './solved-system.ts';

/** Something a person with a level, a bucket and a watch can find out on site. */
export type Unknown =
  | {
      readonly kind: 'level';
      readonly quantity: 'fall' | 'standpipe-level' | 'lift' | 'summit-level' | 'trough-level';
      readonly about: string;
      readonly from: number;
      readonly to: number;
      readonly likely: number;
      readonly deviation: number;
    }
  | {
      readonly kind: 'flow';
      readonly quantity: 'source-yield';
      readonly about: string;
      readonly likely: number;
      readonly deviation: number;
    }
  | {
      readonly kind: 'pump';
      readonly quantity: 'pump-efficiency';
      readonly about: string;
      readonly likely: number;
      readonly deviation: number;
    };

type LevelQuantity = Extract<Unknown, { kind: 'level' }>['quantity'];

interface Pair {
  readonly quantity: LevelQuantity;
  readonly about: string;
  readonly from: number;
  readonly to: number;
}

/** Level differences that someone would take: from the source to the pump, from the pump up to the rest, down gravity lines. */
function pairs({ model, site }: SolvedSystem): Pair[] {
  const { source, pump, standpipe, destinations, supply, feeds } = model;
  const about = site.arrangement;
  return [
    pair('fall', about.pump?.id ?? '', source, pump),
    ...[standpipe].flatMap((s) => (s ? [pair('standpipe-level', about.standpipe?.id ?? '', source, s.node)] : [])),
    ...(supply?.highPlaces ?? []).map((p) => pair('summit-level', about.supply?.id ?? '', source, p.node)),
    ...destinations.map((d) => pair('lift', d.id, pump, d.node)),
    ...destinations.flatMap((d) => d.highPlaces.map((p) => pair('summit-level', d.route ?? d.id, pump, p.node))),
    ...feeds.map((f) => pair('trough-level', f.id, f.from, f.node)),
    ...feeds.flatMap((f) => f.highPlaces.map((p) => pair('summit-level', f.route, f.from, p.node))),
  ];
}

function pair(quantity: LevelQuantity, about: string, from: number, to: number): Pair {
  return { quantity, about, from, to };
}

function levelUnknown(system: SolvedSystem, levels: Pair): Unknown {
  const { nodes } = system.model;
  const n = nodes.length;
  const k = (i: number, j: number) => valueAt(system.spread.covariance, i * n + j);
  const { from, to } = levels;
  return {
    ...levels,
    kind: 'level',
    likely: (nodes[to]?.ground ?? 0) - (nodes[from]?.ground ?? 0),
    deviation: Math.sqrt(Math.max(0, k(from, from) + k(to, to) - 2 * k(from, to))),
  };
}

/** Everything of a system that could be measured and is not known exactly. */
export function unknowns(system: SolvedSystem): Unknown[] {
  const { model, site, spread, layout } = system;
  const found = pairs(system).map((pair) => levelUnknown(system, pair));
  if (model.available) {
    const about = site.arrangement.source?.id ?? '';
    found.push({
      kind: 'flow',
      quantity: 'source-yield',
      about,
      likely: model.available.flow,
      deviation: model.available.deviation,
    });
  }
  const eta = spread.estimate(layout.shared('efficiency'));
  const about = site.arrangement.pump?.id ?? '';
  found.push({
    kind: 'pump',
    quantity: 'pump-efficiency',
    about,
    likely: eta.likely,
    deviation: (eta.high - eta.low) / (2 * Z90),
  });
  return found.filter((u) => u.deviation > 0);
}
