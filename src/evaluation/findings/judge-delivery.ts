import { criterion } from '../../handbook/practice-criteria.ts';
import type { TankPoint } from '../../plan/model/plan.ts';
import { valueAt } from '../../units/value-at.ts';
import type { DestinationOutput } from '../model/outputs.ts';
import { pushBackRatio } from '../model/run-limits.ts';
import { type DestinationModel, type HighPlace, type SystemModel, UNBOUNDED } from '../model/system-model.ts';
import { shareFact } from '../site/herd-shares.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { waveReach } from '../spread/wave-reach.ts';
import { reachOfTolerance, type Spread, scaled, within95 } from '../statistics/compare.ts';
import { DAY } from '../statistics/estimate.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import type { FindingCode } from './catalogue.ts';
import { type FindingInput, type Judged, judge } from './finding.ts';

/** One delivery line: does the pump reach it, does it push back enough, does enough arrive? */
export function judgeDelivery(system: SolvedSystem, index: number): Judged[] {
  const { site, model, layout, known } = system;
  const destination = model.destinations[index];
  if (destination === undefined) return [];
  const about = destination.id;

  /** Judge an output of this line by a rule. */
  const by = (code: FindingCode, name: DestinationOutput, more: Partial<FindingInput> = {}): Judged => {
    const output = layout.destination(index, name);
    return judge(code, site.plan.confidence, { about, spread: known.spread(output), output, ...more });
  };

  const needless = by('pump-needless', 'level-over-source', { limit: 0 });
  if (destination.loss === null || needless.finding.verdict === 'fails') return [needless];
  return [needless, ...judgeReach(system, destination, by), ...judgeNeed(system, index)];
}

type By = (code: FindingCode, name: DestinationOutput, more?: Partial<FindingInput>) => Judged;

function judgeReach(system: SolvedSystem, destination: DestinationModel, by: By): Judged[] {
  const { model, highestHead } = system;
  const found = [
    ...judgePushBack(system, destination, by),
    by('lift-over-fall', 'lift-over-fall'),
    by('friction-share', 'friction-share'),
  ];
  const reached = model.behaviour.modelled?.highestHead ?? highestHead;
  if (reached !== null)
    found.push(by('lift-out-of-reach', 'delivery-head', { limit: reached, limitReach: waveReach(system) }));
  const crest = destination.highPlaces[0];
  if (crest && !destination.vented) found.push(...judgeCrest(model, crest, by));
  return found;
}

/**
 * Whether the delivery pushes back enough for the waste valve to fall open: by what the pump's sheet asks for where it says, by the
 * model of a ram by its parts (judged with the ram), else by the planning rule, which is enough and not needed: below it nobody
 * can say without the pump.
 */
function judgePushBack(system: SolvedSystem, destination: DestinationModel, by: By): Judged[] {
  const { leastDeliveryHead, modelled } = system.model.behaviour;
  const head = atMostMeasured(by('delivery-head', 'back-pressure-head'));
  if (modelled !== null) return [head];
  if (leastDeliveryHead !== null) return [by('pump-head', 'back-pressure-head', { limit: leastDeliveryHead })];
  const vent = destination.vented ? null : destination.highPlaces[0];
  const facts = { level: loopLevel(system), ...(vent && { vent: vent.at }) };
  const rule = by('back-pressure', 'back-pressure-ratio', { facts });
  if (rule.finding.verdict === 'holds') return [rule, head];
  const chance = pushBackChance(rule.spread);
  const verdict = chance <= 1 - system.site.plan.confidence ? 'fails' : 'measure';
  return [{ ...rule, finding: { ...rule.finding, chance, verdict } }, head];
}

/** Chances of equal weight of what ratio lets a valve fall open. */
const PUSH_BACK_RATIOS = Array.from({ length: 32 }, (_, i) => pushBackRatio(normalQuantile((i + 0.5) / 32)));

/** Chance that a ratio of delivery head to fall lets some waste valve fall open. */
function pushBackChance(ratio: Spread): number {
  return PUSH_BACK_RATIOS.reduce((sum, least) => sum + ratio.chanceAtLeast(least), 0) / PUSH_BACK_RATIOS.length;
}

/** A rule that is enough, and that published pumps run below. */
function atMostMeasured(judged: Judged): Judged {
  if (judged.finding.verdict !== 'fails') return judged;
  return { ...judged, finding: { ...judged.finding, verdict: 'measure' } };
}

/** Level of a vented high point that would push back enough by itself: the waste valve and the rule's multiple of the fall. */
function loopLevel({ model, spread, layout }: SolvedSystem): number {
  const wasteValve = (model.nodes[model.pump]?.ground ?? 0) + model.wasteValveHeight;
  return wasteValve + criterion('back-pressure-ratio-least').value * valueAt(spread.likely, layout.shared('fall'));
}

/** A closed crest: does the water siphon over it, and does the siphon hold? */
function judgeCrest(model: SystemModel, crest: HighPlace, by: By): Judged[] {
  const siphon = by('siphon', 'crest-head', { limit: 0, facts: { at: crest.at } });
  if (siphon.finding.verdict === 'holds') return [siphon];
  const limit = model.columnBreaks;
  return [
    siphon,
    by('siphon-breaks', 'crest-head', {
      limit,
      limitReach: reachOfTolerance(TOLERANCES.weather.value),
      facts: { at: crest.at },
    }),
  ];
}

/** Days that a full tank lasts the herd. */
function judgeStore({ plan }: Site, tank: TankPoint, demandPerDay: number): Judged[] {
  if (demandPerDay <= 0) return [];
  const likely = (tank.volume / demandPerDay) * DAY;
  const off = TOLERANCES.tank.value;
  const spread = within95({ low: likely * (1 - off), likely, high: likely * (1 + off) });
  return [judge('storage-short', plan.confidence, { about: tank.id, spread })];
}

function judgeNeed({ site, model, layout, known, spread }: SolvedSystem, index: number): Judged[] {
  const destination = model.destinations[index];
  const flows = valueAt(spread.likely, layout.shared('running-flow')) < UNBOUNDED;
  if (site.demandPerDay === null || destination === undefined || !flows) return [];
  const output = layout.destination(index, 'delivery');
  const point = site.arrangement.destinations[index]?.point;
  const { brought, drunkFrom } = site.shares;
  const store = point?.role === 'tank' ? judgeStore(site, point, site.demandPerDay * drunkFrom(point.id)) : [];
  return [
    ...store,
    judge('need-unmet', site.plan.confidence, {
      about: destination.id,
      spread: scaled(known.spread(layout.destination(index, 'arrives')), DAY),
      limit: site.demandPerDay * brought(destination.id),
      output,
      facts: shareFact(brought(destination.id)),
    }),
  ];
}
