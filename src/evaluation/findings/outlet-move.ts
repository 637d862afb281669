import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { type DestinationOutput, OutputLayout } from '../model/outputs.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel } from '../model/system-model.ts';
import { baseState } from '../spread/first-order.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';

/** Halvings of the search for a move: to a millimetre for any lift. */
const HALVINGS = 24;

/** No outlet of this trade is moved by more. */
const FARTHEST: Metres = 1000;

/**
 * The system with one destination, and those that share the pump with it where it does: the others take nothing of its water, so
 * that running them says nothing of it.
 */
function only({ model }: SolvedSystem, index: number): { readonly model: SystemModel; readonly index: number } {
  const own = model.destinations[index];
  const destinations = own?.kept
    ? model.destinations.filter(({ kept }) => kept)
    : model.destinations.slice(index, index + 1);
  return { model: { ...model, destinations, troughs: [] }, index: own === undefined ? -1 : destinations.indexOf(own) };
}

/** An output of a destination at the likely values once its outlet stands `up` higher, its ground and all. */
function outputAt(system: SolvedSystem, at: number, name: DestinationOutput): (up: Metres) => number {
  const { model, index } = only(system, at);
  const layout = new OutputLayout({ destinations: model.destinations.length, feeds: model.feeds.length, troughs: 0 });
  const out = new Float64Array(layout.length);
  const node = model.destinations[index]?.node ?? 0;
  const { ground } = baseState(model);
  return (up) => {
    const state = baseState(model);
    state.ground[node] = valueAt(ground, node) + up;
    runSystem(model, layout, state, out);
    return valueAt(out, layout.destination(index, name));
  };
}

/**
 * How far the outlet of a delivery line must be moved until an output that rises with it comes to a value: less arrives at a
 * higher outlet, and its friction with it. Up above 0; null where no move does it.
 */
export function outletMove(
  system: SolvedSystem,
  about: string,
  wanted: { readonly output: DestinationOutput; readonly value: number },
): Metres | null {
  const index = system.model.destinations.findIndex(({ id }) => id === about);
  if (index < 0) return null;
  const at = outputAt(system, index, wanted.output);
  let [low, high] = at(0) < wanted.value ? [0, FARTHEST] : [-FARTHEST, 0];
  if (at(low) > wanted.value || at(high) < wanted.value) return null;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (at(middle) < wanted.value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
