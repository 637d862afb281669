import { waveMaterial } from '../../handbook/wave-materials.ts';
import { joukowskyHead, waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import { valueAt } from '../../units/value-at.ts';
import { buildModel } from '../model/build-model.ts';
import { OutputLayout } from '../model/outputs.ts';
import { shutVelocity } from '../model/shut-velocity.ts';
import type { DestinationModel, SystemModel } from '../model/system-model.ts';
import type { Site } from '../site/site.ts';
import { firstOrder } from './first-order.ts';
import { runningKnown } from './run-chance.ts';
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
