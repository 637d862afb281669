import { exactly } from '../compare.ts';
import type { SolvedSystem } from '../system.ts';
import { type Judged, judge } from './finding.ts';

/** A ram described by its parts, as the model of the cycle sees it at its design heads. A pump sheet is not judged here. */
export function judgeRam(system: SolvedSystem): Judged[] {
  const { site, model } = system;
  const { modelled } = model.behaviour;
  if (modelled === null) return [];
  const { confidence } = site.plan;
  const about = site.arrangement.pump?.id ?? '';
  if (modelled.stops !== null) {
    return [judge('ram-stops', confidence, { about, spread: exactly(1), limit: 0, facts: { reason: modelled.stops } })];
  }
  const found: Judged[] = [
    judge('ram-stops', confidence, { about, spread: exactly(0), limit: 0 }),
    ...judgeValve(system),
  ];
  if (modelled.beatsPerMinute !== null) {
    const spread = exactly(modelled.beatsPerMinute);
    found.push(judge('beat-slow', confidence, { about, spread }), judge('beat-fast', confidence, { about, spread }));
  }
  return found;
}

/** The waste valve must lift at the running fall, and fall open again against every delivery line. */
function judgeValve({ site, model, known, layout }: SolvedSystem): Judged[] {
  const limits = model.behaviour.modelled?.limits ?? null;
  if (limits === null) return [];
  const { confidence } = site.plan;
  const output = layout.shared('fall');
  const sticks = judge('valve-sticks', confidence, {
    about: site.arrangement.pump?.id ?? '',
    spread: known.spread(output),
    limit: limits.leastFall,
    output,
  });
  const opens = model.destinations.flatMap((destination, i) => {
    if (destination.loss === null) return [];
    const head = layout.destination(i, 'back-pressure-head');
    const limit = limits.reopening.unlikelyBelow;
    return [
      judge('valve-stays-shut', confidence, { about: destination.id, spread: known.spread(head), limit, output: head }),
    ];
  });
  return [sticks, ...opens];
}
