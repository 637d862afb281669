import type { LineResult, StandpipeResult } from '../result/evaluation.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { Judged } from './finding.ts';
import { judgeAreas } from './judge-areas.ts';
import { judgeDelivery } from './judge-delivery.ts';
import { judgeDrive } from './judge-drive.ts';
import { judgeFeeds, judgeGravity } from './judge-gravity.ts';
import { judgeGround } from './judge-ground.ts';
import { judgeLines } from './judge-lines.ts';
import { judgePressure } from './judge-pressure.ts';
import { judgeRam } from './judge-ram.ts';
import { judgeSource } from './judge-source.ts';

/** Every finding of a plan, in the order in which the water passes: ground, source, drive, delivery, gravity, pressures. */
export function findingsOf(
  site: Site,
  system: SolvedSystem | null,
  known: {
    readonly lines: readonly LineResult[];
    readonly standpipe: StandpipeResult | null;
    /** What the gravity lines are judged by: the system, or without a pump they by themselves. */
    readonly gravity: SolvedSystem | null;
  },
): Judged[] {
  const ground = [...judgeGround(site), ...judgeAreas(site), ...judgeLines(site, system, known.lines)];
  if (system === null) {
    const { gravity, lines } = known;
    return gravity === null ? ground : [...ground, ...judgeFeeds(gravity), ...judgePressure(gravity, lines)];
  }
  return [
    ...ground,
    ...judgeSource(system, known.standpipe),
    ...judgeDrive(system),
    ...judgeRam(system),
    ...system.model.destinations.flatMap((_, i) => judgeDelivery(system, i)),
    ...judgeGravity(system),
    ...judgePressure(system, known.lines),
  ];
}
