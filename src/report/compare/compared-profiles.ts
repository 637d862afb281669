import { type ProfileSource, profileOfWay } from '../profile/profile-of-plan.ts';
import type { ProfileView } from '../profile/profile-view.ts';
import type { WaterWay } from '../tables/water-ways.ts';

type Drawn = Pick<ProfileView, 'legs' | 'stations'>;

/**
 * The delivery lines to every other tank that is not set aside, each laid over a way from the pump on, as far along as it is
 * long. None where the way does not pass the pump.
 */
export function comparedProfiles(source: ProfileSource, way: WaterWay, main: Drawn): Drawn {
  const pump = main.stations.find(({ role }) => role === 'pump');
  if (pump === undefined) return { legs: [], stations: [] };
  const { points, routes } = source.plan;
  const aside = new Set(points.flatMap((p) => (p.role === 'tank' && p.standing === 'set-aside' ? [p.id] : [])));
  const others = routes.filter(
    ({ id, role, from, to }) => role === 'delivery' && from === pump.id && !aside.has(to) && !way.routes.includes(id),
  );
  const drawn = others.map(({ id }) => profileOfWay(source, { id, title: '', routes: [id] }));
  return {
    legs: drawn.flatMap(({ legs }) =>
      legs.map((leg) => ({
        ...leg,
        offset: leg.offset + pump.at,
        result: null,
        spread: null,
        emphasis: 'compared' as const,
      })),
    ),
    stations: drawn.flatMap(({ stations }) =>
      stations.slice(1).map((station) => ({ ...station, at: station.at + pump.at })),
    ),
  };
}

/** The same way in another plan, as far as that plan has its routes. */
export function alternativeProfile(other: ProfileSource, way: WaterWay): Drawn {
  const drawn = profileOfWay(other, way);
  return {
    legs: drawn.legs.map((leg) => ({ ...leg, result: null, spread: null, emphasis: 'alternative' as const })),
    stations: [],
  };
}
