import { velocity } from '../../hydraulics/pipe-flow.ts';
import { joukowskyHead } from '../../hydraulics/pressure-wave.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { LineResult } from './evaluation.ts';
import { type LineWater, lineWaters } from './grade-lines.ts';
import { greatestHead, levelGrade, pressureOf } from './pressures.ts';

/** A route as the ground shows it, before any water is known. */
function dryLine(site: Site, profile: LineProfile): LineResult {
  const { route, line, start, end, lowest, highest, turnings } = profile;
  return {
    id: route.id,
    role: route.role,
    horizontal: line.horizontal,
    slope: line.slope,
    start,
    end,
    lowest,
    highest,
    void: profile.void,
    turnings,
    flow: null,
    velocity: null,
    friction: null,
    running: null,
    still: null,
    pressure: null,
    rating: site.pipes.get(route.pipe)?.rating ?? null,
  };
}

/** Highest delivery head at the pump among the lines that are not set aside; the drive pipe feels it at every beat. */
function beatHead({ site, spread, layout, model }: SolvedSystem): Metres {
  const aside = new Set(
    site.plan.points.flatMap((p) => (p.role === 'tank' && p.standing === 'set-aside' ? [p.id] : [])),
  );
  return model.destinations.reduce((most, d, i) => {
    if (d.loss === null || aside.has(d.id)) return most;
    return Math.max(most, valueAt(spread.likely, layout.destination(i, 'delivery-head')));
  }, 0);
}

/** Head in a shut delivery line once the pump has driven it as high as its pressure wave reaches. */
function blockedHead({ model, highestHead }: SolvedSystem, profile: LineProfile): Metres {
  const wasteValve = (model.nodes[model.pump]?.ground ?? 0) + model.wasteValveHeight;
  return highestHead === null
    ? 0
    : greatestHead(profile, levelGrade(wasteValve + highestHead, profile.line.horizontal));
}

/** The three pressures of a line, each at its own worst place, as heads in m. */
function heads(
  system: SolvedSystem,
  profile: LineProfile,
  water: LineWater,
): { still: Metres; running: Metres; blocked: Metres } {
  const length = profile.line.horizontal;
  const still = greatestHead(profile, levelGrade(water.still, length));
  const running = greatestHead(profile, water.running);
  const role = profile.route.role;
  if (role === 'drive') {
    const wave = system.wave
      ? joukowskyHead({ waveSpeed: system.wave.speed, velocityChange: system.wave.velocity })
      : 0;
    return { still, running: Math.max(running, beatHead(system)), blocked: still + wave };
  }
  if (role === 'delivery') return { still, running, blocked: Math.max(running, blockedHead(system, profile)) };
  return { still, running, blocked: still };
}

/** What is known of every route: lengths and heights always, water and pressures when the system can run. */
export function lineResults(site: Site, system: SolvedSystem | null): LineResult[] {
  const waters = system ? lineWaters(system) : new Map<string, LineWater>();
  return [...site.profiles.values()].map((profile) => {
    const dry = dryLine(site, profile);
    const water = waters.get(profile.route.id);
    const bore = site.pipes.get(profile.route.pipe)?.bore;
    if (system === null || water === undefined || bore === undefined) return dry;
    const at = heads(system, profile, water);
    const pressure = (head: Metres) => pressureOf(head, site.plan.waterTemperature);
    return {
      ...dry,
      flow: water.flow,
      velocity: velocity({ flow: water.flow, bore }),
      friction: water.friction,
      running: water.running,
      still: water.still,
      pressure: { still: pressure(at.still), running: pressure(at.running), blocked: pressure(at.blocked) },
    };
  });
}
