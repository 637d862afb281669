import { velocity } from '../../hydraulics/pipe-flow.ts';
import { joukowskyHead } from '../../hydraulics/pressure-wave.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { GradeLine, LineResult } from './evaluation.ts';
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

const wasteValveLevel = ({ model }: SolvedSystem): Metres =>
  (model.nodes[model.pump]?.ground ?? 0) + model.wasteValveHeight;

/** Level in a shut delivery line once the pump has driven it as high as its pressure wave reaches, or its relief valve opens. */
function blockedLevel(system: SolvedSystem, { route }: LineProfile): Metres | null {
  const { highestHead } = system;
  if (highestHead === null) return null;
  const opens =
    route.relief === undefined ? highestHead : route.relief / pressureOf(1, system.site.plan.waterTemperature);
  return wasteValveLevel(system) + Math.min(highestHead, opens);
}

/** Head of the wave in the drive pipe when the waste valve shuts; 0 where no wave is known. */
const waveHead = ({ wave }: SolvedSystem): Metres =>
  wave === null ? 0 : joukowskyHead({ waveSpeed: wave.speed, velocityChange: wave.velocity });

/** Every grade line that a route stands under at one time or another: at rest, running, and with the delivery shut. */
export function gradesOf(system: SolvedSystem, profile: LineProfile, water: LineWater): readonly GradeLine[] {
  const length = profile.line.horizontal;
  const both = [levelGrade(water.still, length), water.running];
  const { role } = profile.route;
  if (role === 'drive') {
    const beat = wasteValveLevel(system) + beatHead(system);
    return [...both, levelGrade(beat, length), levelGrade(water.still + waveHead(system), length)];
  }
  const blocked = role === 'delivery' ? blockedLevel(system, profile) : null;
  return blocked === null ? both : [...both, levelGrade(blocked, length)];
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
    return { still, running: Math.max(running, beatHead(system)), blocked: still + waveHead(system) };
  }
  const blocked = role === 'delivery' ? blockedLevel(system, profile) : null;
  if (blocked !== null)
    return { still, running, blocked: Math.max(running, greatestHead(profile, levelGrade(blocked, length))) };
  if (role === 'delivery') return { still, running, blocked: running };
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
