import type { Ratio } from '../../units/quantity.ts';
import type { OutputLayout } from '../model/outputs.ts';
import type { SystemModel } from '../model/system-model.ts';
import type { Spread } from '../statistics/compare.ts';
import { normalQuantile, Z90 } from '../statistics/normal.ts';
import type { OutputSpreads } from './first-order.ts';

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
export function withChance(delivery: Spread, chance: Ratio): Spread {
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
export function runningKnown(model: SystemModel, layout: OutputLayout, spread: OutputSpreads): OutputSpreads {
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
