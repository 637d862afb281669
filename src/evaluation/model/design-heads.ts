import type { Heads } from '../../ram/cycle/ram-system.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Destination } from '../site/arrangement.ts';
import type { Site } from '../site/site.ts';

/** Level that a destination's delivery line has to reach: its outlet or its highest summit; null when not drawn on known ground. */
function topLevel(site: Site, { point, route }: Destination): Metres | null {
  const ground = site.heights.node(point.id)?.ground;
  const profile = route && site.profiles.get(route.id);
  if (ground === undefined || !profile) return null;
  const outlet = ground + (point.role === 'tank' ? point.inletHeight : point.valveHeight);
  return profile.turnings.reduce((top, t) => (t.kind === 'summit' ? Math.max(top, t.ground) : top), outlet);
}

/**
 * The heads a pump is to work at, before any flow is known: the fall at rest, and the highest drawn destination that is not
 * set aside. Null until source, pump and one delivery line are drawn on known ground.
 */
export function designHeads(site: Site): Heads | null {
  const { source, pump, destinations } = site.arrangement;
  const sourceGround = source && site.heights.node(source.id)?.ground;
  const pumpGround = pump && site.heights.node(pump.id)?.ground;
  if (!source || !pump || sourceGround == null || pumpGround == null) return null;
  const wasteValve = pumpGround + pump.wasteValveHeight;
  const kept = destinations.filter(({ point }) => point.role === 'tank' && point.standing === 'kept');
  const open = destinations.filter(({ point }) => point.role !== 'tank' || point.standing !== 'set-aside');
  const tops = (kept.length > 0 ? kept : open).flatMap((d) => topLevel(site, d) ?? []);
  if (tops.length === 0) return null;
  return { fall: sourceGround + source.waterLevel - wasteValve, deliveryHead: Math.max(...tops) - wasteValve };
}
