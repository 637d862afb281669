import { criterion } from '../../handbook/practice-criteria.ts';
import { airPressure, vapourHead } from '../../hydraulics/suction.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { TankPoint } from '../../plan/model/plan.ts';
import { valueAt } from '../../units/value-at.ts';
import type { DestinationOutput } from '../model/outputs.ts';
import { type DestinationModel, type HighPlace, type SystemModel, UNBOUNDED } from '../model/system-model.ts';
import { shareFact } from '../site/herd-shares.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { waveReach } from '../spread/wave-reach.ts';
import { reachOfTolerance, scaled, within95 } from '../statistics/compare.ts';
import { DAY } from '../statistics/estimate.ts';
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
  const { site, model, highestHead } = system;
  const least = model.behaviour.leastDeliveryHead;
  const found = [
    by('back-pressure', 'back-pressure-ratio', { facts: { level: loopLevel(system) } }),
    by('delivery-head', 'back-pressure-head', least === null ? {} : { limit: least, source: 'the sheet of the pump' }),
    by('lift-over-fall', 'lift-over-fall'),
    by('friction-share', 'friction-share'),
  ];
  const reached = model.behaviour.modelled?.highestHead ?? highestHead;
  if (reached !== null)
    found.push(by('lift-out-of-reach', 'delivery-head', { limit: reached, limitReach: waveReach(system) }));
  const crest = destination.highPlaces[0];
  if (crest && !destination.vented) found.push(...judgeCrest(site, model, crest, by));
  return found;
}

/** Level of a vented high point that would push back enough by itself: the waste valve and the rule's multiple of the fall. */
function loopLevel({ model, spread, layout }: SolvedSystem): number {
  const wasteValve = (model.nodes[model.pump]?.ground ?? 0) + model.wasteValveHeight;
  return wasteValve + criterion('back-pressure-ratio-least').value * valueAt(spread.likely, layout.shared('fall'));
}

/** Dissolved air comes out before the water boils: this much is kept from the vapour limit. Common practice, no source. */
const AIR_MARGIN = 3;

/** A closed crest: does the water siphon over it, and does the siphon hold? */
function judgeCrest(site: Site, model: SystemModel, crest: HighPlace, by: By): Judged[] {
  const siphon = by('siphon', 'crest-head', { limit: 0, facts: { at: crest.at } });
  if (siphon.finding.verdict === 'holds') return [siphon];
  const altitude = model.nodes[crest.node]?.ground ?? 0;
  const water = waterAt(site.plan.waterTemperature);
  const limit = AIR_MARGIN - vapourHead({ airPressure: airPressure(altitude), water });
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
      spread: scaled(known.spread(output), DAY),
      limit: site.demandPerDay * brought(destination.id),
      output,
      facts: shareFact(brought(destination.id)),
    }),
  ];
}
