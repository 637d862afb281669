import { readFile } from 'node:fs/promises';
import { demoPlan } from './command-line.mjs';

/** Pseudo-random numbers that are the same on every run (mulberry32, public domain). */
function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const HERD = ['beef-cow-calf-pair-aafc'];
const LONG = 'the place beyond the second gate where the old track forks and the wire runs down to the water';

/** A plan like the demo in which names, units, standing, herd, year, prices and troughs are as a seed has them, as text. */
export async function planLike(seed) {
  const random = seeded(seed);
  const some = (share) => random() < share;
  const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
  const about = plan.rillwright;
  about.units = some(0.5) ? 'us' : 'metric';
  about.name = some(0.3) ? `${about.name}, ${LONG}` : about.name;
  about.dry_share = some(0.5) ? 0.4 + 0.5 * random() : null;
  if (about.dry_share === null) delete about.dry_share_plus_minus;
  about.herd = some(0.8) ? HERD.map((row) => ({ kind: 'row', row, count: 1 + Math.floor(60 * random()) })) : [];
  while (some(0.6) && about.herd.length < 8)
    about.herd.push({ kind: 'own', label: `animals of ${LONG}`, need_L_per_day: 5, count: 3 });
  if (some(0.6))
    about.year = Array.from({ length: 12 }, (_, m) => ({
      season: m > 3 && m < 9 ? 'summer' : 'winter',
      air_temperature_C: null,
      source_share: 0.2 + 0.8 * random(),
    }));
  const priced = some(0.5);
  about.materials = {
    currency: priced ? 'crowns' : '',
    allowance: some(0.5) ? 0.1 : 0,
    prices: priced ? [{ item: 'pe100-sdr11-25', unit: 'metre', price: 1.5, pack_m: some(0.5) ? 100 : null }] : [],
  };
  const standing = some(0.5) ? ['kept', 'kept', 'kept'] : some(0.5) ? ['candidate', 'kept', 'set-aside'] : null;
  plan.features
    .filter(({ properties }) => properties.role === 'tank')
    .forEach((tank, i) => {
      if (standing !== null) tank.properties.standing = standing[i];
    });
  for (const { properties } of plan.features) if (some(0.3)) properties.name = `${properties.name}, ${LONG}`;
  // Higher or lower, further or nearer: by up to some 60 m, its lines with it.
  const by = [(random() - 0.5) / 900, (random() - 0.5) / 900];
  const moved = plan.features.find(({ id }) => id === 'tank-spur');
  const before = moved.geometry.coordinates.join();
  const to = moved.geometry.coordinates.map((value, i) => Number((value + by[i]).toFixed(8)));
  for (const { geometry } of plan.features) {
    if (geometry.type === 'LineString')
      geometry.coordinates = geometry.coordinates.map((at) => (at.join() === before ? to : at));
  }
  moved.geometry.coordinates = to;
  return JSON.stringify(plan);
}
