import type { PlanPoint, PumpPoint, SourcePoint } from '../../plan/model/plan.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Site } from '../site/site.ts';
import { solve } from './solve.ts';
import type { SolvedSystem } from './solved-system.ts';

/**
 * The gravity lines of a plan without a pump, solved by themselves: what feeds the first one stands for the source where there
 * is none, and its trough for the pump. Only what concerns gravity lines may be read from it. Null for a plan with a pump, and
 * while no gravity line is drawn on known ground.
 */
export function solveGravity(site: Site, accuracy: HeightAccuracy): SolvedSystem | null {
  const { arrangement } = site;
  const [first] = arrangement.gravity;
  if (arrangement.pump !== null || first === undefined) return null;
  const { source, troughs } = arrangement;
  const stoodFor = {
    ...arrangement,
    source: source ?? sourceAt(first.from),
    pump: pumpAt(first.trough),
    standpipe: null,
    supply: null,
    drive: null,
    destinations: [],
    // Without a source nothing can be said of a trough against it.
    troughs: source === null ? [] : troughs,
  };
  const system = solve({ ...site, arrangement: stoodFor }, accuracy);
  return system && system.model.feeds.length > 0 ? { ...system, site } : null;
}

const asPoint = ({ id, name, position, note }: PlanPoint) => ({ id, name, position, note });

function sourceAt(point: PlanPoint): SourcePoint {
  return { ...asPoint(point), role: 'source', waterLevel: 0, storage: 0 };
}

function pumpAt(point: PlanPoint): PumpPoint {
  return { ...asPoint(point), role: 'pump', wasteValveHeight: 0 };
}
