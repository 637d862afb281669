import { waveMaterial } from '../../handbook/wave-materials.ts';
import { joukowskyHead, waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { buildModel } from '../model/build-model.ts';
import { OutputLayout } from '../model/outputs.ts';
import { shutVelocity } from '../model/shut-velocity.ts';
import type { DestinationModel, SystemModel } from '../model/system-model.ts';
import type { Site } from '../site/site.ts';
import type { Spread } from '../statistics/compare.ts';
import { normalQuantile, Z90 } from '../statistics/normal.ts';
import { firstOrder, type OutputSpreads } from './first-order.ts';
import { type DrawOrder, drawnSpreads } from './samples.ts';
import type { SolvedSystem } from './solved-system.ts';

/** Nodes that each output rests on: those of the system itself, and those of its own destination, feed or trough. */
export function outputNodes(model: SystemModel, layout: OutputLayout): (output: number) => readonly number[] {
  const drawing = model.feeds
    .filter((f) => f.draw !== null)
    .flatMap((f) => [f.node, ...f.highPlaces.map((p) => p.node)]);
  const shared = [model.source, model.pump, ...(model.standpipe ? [model.standpipe.node] : []), ...drawing];
  const supply = (model.supply?.highPlaces ?? []).map((p) => p.node);
  const own = (d: DestinationModel) => [d.node, ...d.highPlaces.map((p) => p.node)];
  const kept = model.destinations.filter((d) => d.kept).flatMap(own);
  const destination = model.destinations.map((d) => [...shared, ...(d.kept ? kept : own(d))]);
  const feed = model.feeds.map((f) => [...new Set([f.from, f.node, ...f.highPlaces.map((p) => p.node)])]);
  const trough = model.troughs.map((t) => [model.source, t.node]);
  return (output) => {
    if (output < layout.destinationStart) return [...shared, ...supply];
    if (output < layout.feedStart) return destination[layout.indexOfDestination(output)] ?? [];
    if (output < layout.troughStart) return feed[layout.indexOfFeed(output)] ?? [];
    return trough[output - layout.troughStart] ?? [];
  };
}

/** Pressure wave in the drive pipe when the waste valve shuts at the likely intake. */
function driveWave(site: Site, model: SystemModel, driveFlow: number): SolvedSystem['wave'] {
  const pipe = site.arrangement.drive && site.pipes.get(site.arrangement.drive.pipe);
  if (!pipe || driveFlow >= Number.MAX_VALUE) return null;
  const water = waterAt(site.plan.waterTemperature);
  return {
    speed: waveSpeed({ ...water, bore: pipe.bore, wall: pipe.wall, modulus: waveMaterial(pipe.material).modulus }),
    velocity:
      model.each.modelled?.shutVelocity ?? shutVelocity({ driveFlow: driveFlow / model.pumps, bore: pipe.bore }),
  };
}

/** The same system with its spreads drawn instead of estimated to first order; tells at every stop how many draws are done. */
export function* drawn(system: SolvedSystem, order: DrawOrder): Generator<number, SolvedSystem> {
  const { model, layout, spread } = system;
  return { ...system, known: yield* drawnSpreads(model, layout, spread.covariance, order) };
}

/** Solve a site's system with its spreads to first order; null until source and pump stand on known ground. */
export function solve(site: Site, accuracy: HeightAccuracy): SolvedSystem | null {
  const built = buildModel(site);
  if (built === null) return null;
  const { model, groups } = built;
  const layout = new OutputLayout({
    destinations: model.destinations.length,
    feeds: model.feeds.length,
    troughs: model.troughs.length,
  });
  const nodesOf = outputNodes(model, layout);
  const spread = firstOrder(model, layout, { groups, covariance: site.heights.covariance(model.nodes), nodesOf });
  const likely = (name: 'drive-flow' | 'fall') => valueAt(spread.likely, layout.shared(name));
  const wave = driveWave(site, model, likely('drive-flow'));
  const highestHead =
    wave && Math.max(0, likely('fall')) + joukowskyHead({ waveSpeed: wave.speed, velocityChange: wave.velocity });
  return {
    site,
    model,
    layout,
    spread,
    known: runningKnown(model, layout, spread),
    nodesOf,
    wave,
    highestHead,
    accuracy,
  };
}

/** 1 with a chance, else 0. */
function runs(chance: Ratio): Spread {
  return {
    estimate: { low: chance >= 0.9 ? 1 : 0, likely: chance >= 0.5 ? 1 : 0, high: chance > 0.1 ? 1 : 0 },
    chanceAtLeast: (limit) => (limit <= 0 ? 1 : limit <= 1 ? chance : 0),
  };
}

/** Value of a spread below which a share lies, each side of the middle as half of a normal distribution. */
function quantile({ estimate: { low, likely, high } }: Spread, share: Ratio): number {
  const reach = share < 0.5 ? likely - low : high - likely;
  return likely + (normalQuantile(share) / Z90) * reach;
}

/** What arrives of a delivery that comes with a chance and else is nothing. */
function withChance(delivery: Spread, chance: Ratio): Spread {
  const at = (share: Ratio) =>
    share <= 1 - chance ? 0 : Math.max(0, quantile(delivery, (share - (1 - chance)) / Math.max(chance, 1e-12)));
  return {
    estimate: { low: at(0.1), likely: at(0.5), high: at(0.9) },
    chanceAtLeast: (limit) => (limit <= 0 ? 1 : chance * delivery.chanceAtLeast(limit)),
  };
}

/**
 * Spreads to first order with the chance that the pump runs in them: the least of the chances of all that must be so, which is
 * right where they go together and too hopeful where they do not. Draws count it.
 */
function runningKnown(model: SystemModel, layout: OutputLayout, spread: OutputSpreads): OutputSpreads {
  const kept = (output: number) => spread.spread(output).chanceAtLeast(0);
  const beats = (): Ratio =>
    Math.min(
      model.available === null ? 1 : kept(layout.shared('intake-margin')),
      model.standpipe === null || model.supply === null ? 1 : kept(layout.shared('supply-margin')),
      (model.supply?.highPlaces.length ?? 0) === 0 ? 1 : kept(layout.shared('supply-clearance')),
      kept(layout.shared('fall-margin')),
    );
  const found = new Map<number, Spread>([[layout.shared('beats'), runs(beats())]]);
  model.destinations.forEach(({ loss }, i) => {
    if (loss === null) return;
    const chance = Math.min(
      beats(),
      kept(layout.destination(i, 'reach-margin')),
      kept(layout.destination(i, 'push-margin')),
      // A ram by its parts that does not beat at these heads.
      model.each.modelled === null || spread.estimate(layout.destination(i, 'delivery')).high > 0 ? 1 : 0,
    );
    found.set(layout.destination(i, 'runs'), runs(chance));
    found.set(layout.destination(i, 'arrives'), withChance(spread.spread(layout.destination(i, 'delivery')), chance));
  });
  const of = (output: number) => found.get(output) ?? spread.spread(output);
  return { spread: of, estimate: (output) => of(output).estimate };
}
