import {
  materialNeeds,
  type PieceNeed,
  type PipeNeed,
  type TrenchNeed,
  timesLaid,
} from '../../evaluation/evaluate/materials.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import type { Plan, PointId, Price, RouteId } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { moneyWords } from '../words/money-words.ts';

/** Pipe of one kind on the bill. */
export interface PipeLine {
  readonly need: PipeNeed;
  readonly length: string;
  readonly toBuy: string;
  /** Whole coils or sticks; null when it is cut to length. */
  readonly packs: string | null;
  /** What a whole length of it is called. */
  readonly pack: 'coil' | 'stick';
  /** Whether it is sold in coils or sticks at all; a trench is not. */
  readonly isPacked: boolean;
  readonly price: Price | null;
  readonly cost: string | null;
  readonly routes: string;
}

/** Pieces of one kind on the bill. */
export interface PieceLine {
  readonly need: PieceNeed;
  readonly price: Price | null;
  readonly cost: string | null;
  readonly routes: string;
}

/** What has to be bought, in words. */
export interface PipeBill {
  readonly pipes: readonly PipeLine[];
  readonly trenches: readonly PipeLine[];
  readonly pieces: readonly PieceLine[];
  readonly total: string | null;
  /** What the total leaves out; null when it leaves out nothing. */
  readonly without: string | null;
}

/** The bill of a plan: every kind of pipe with its lengths, every kind of piece with its count, each with the user's own price. */
export function pipeBill(plan: Plan, evaluation: Evaluation, units: UnitSystem): PipeBill {
  const needs = materialNeeds(plan, evaluation);
  const { currency } = plan.materials;
  const priceOf = (item: string) => plan.materials.prices.find((price) => price.item === item) ?? null;
  const money = (amount: number | null) => (amount === null ? null : moneyWords(amount, currency, units));
  const routes = (ids: readonly (RouteId | PointId)[]) =>
    ids.map((id) => timesWords(plan, id) + nameOf(plan, id)).join(', ');
  const byLength = (need: PipeNeed, isPacked: boolean): PipeLine => ({
    isPacked,
    need,
    length: writeQuantity(need.length, 'length', units),
    toBuy: writeQuantity(need.toBuy, 'length', units),
    pack: packOf(plan, need),
    packs: packWords(need, packOf(plan, need), units),
    price: priceOf(need.item),
    cost: money(need.cost),
    routes: routes(need.routes),
  });
  return {
    pipes: needs.pipes.map((need) => byLength(need, true)),
    trenches: needs.trenches.map((need) => byLength({ ...need, label: trenchWords(need, units) }, false)),
    pieces: needs.pieces.map((need) => ({
      need,
      price: priceOf(need.item),
      cost: money(need.cost),
      routes: routes(need.routes),
    })),
    total: money(needs.total),
    without: needs.unpriced.length === 0 ? null : `without ${needs.unpriced.join(', ')}`,
  };
}

/** A trench by how deep it is dug. */
function trenchWords({ label, depth }: TrenchNeed, units: UnitSystem): string {
  return depth === null ? label : `trench, ${writeQuantity(depth, 'height', units)} deep`;
}

/** How many of a route are laid side by side, where it is more than one. */
function timesWords(plan: Plan, id: RouteId): string {
  const route = plan.routes.find((r) => r.id === id);
  const times = route === undefined ? 1 : timesLaid(plan, route);
  return times === 1 ? '' : `${times} × `;
}

/** Polyethylene comes in coils, everything else in sticks. */
function packOf(plan: Plan, { routes }: PipeNeed): 'coil' | 'stick' {
  const route = plan.routes.find(({ id }) => id === routes[0]);
  const pipe = plan.pipes.find(({ id }) => id === route?.pipe);
  const material = pipe?.kind === 'row' ? pipeRow(pipe.row)?.material : pipe?.material;
  return material === 'pe' ? 'coil' : 'stick';
}

function packWords({ packs, pack }: PipeNeed, word: 'coil' | 'stick', units: UnitSystem): string | null {
  if (packs === null || pack === null) return null;
  return `${packs} ${word}${packs === 1 ? '' : 's'} of\u00a0${writeQuantity(pack, 'length', units)}`;
}
