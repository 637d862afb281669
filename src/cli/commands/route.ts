import type { Position } from '../../geodesy/position.ts';
import type { RouteRole } from '../../plan/model/plan.ts';
import { proposeRoute } from '../../siting/lines/propose-route.ts';
import type { ProposalGround, ProposedRoute, RouteProposal } from '../../siting/lines/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../siting/lines/route-settings.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type Flags, readFlags, required } from '../input/flags.ts';
import type { Command } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import {
  TERRAIN_SHAPES,
  TERRAIN_USAGE,
  terrainOf,
  terrainText,
  warnOfGuesses,
  withTerrain,
} from '../input/terrain-files.ts';

const USAGE = `rillwright route FROM_LON,FROM_LAT TO_LON,TO_LAT --role ROLE --dem FILE… [--json]

A line to propose between two places: a delivery line that brings water cheapest, and the shortest beside it where that one
asks for another lift; a supply or gravity line that falls all the way, or where the ground stands too high for one; a drive
pipe, which is straight.

  --role           delivery, supply, gravity or drive
  --from-height    where the water leaves above the ground, such as a pump's waste valve; 0 when not given
  --to-height      where it enters above the ground, such as a tank's inlet; 0 when not given
  --least-fall     fall per metre of a line that must fall all the way; ${USUAL_ROUTE_SETTINGS.leastFall} when not given
  --deepest        how far below the ground such a line may lie; ${USUAL_ROUTE_SETTINGS.deepest} m when not given
  --highest        how far above the ground it may lie; ${USUAL_ROUTE_SETTINGS.highest} m when not given
${TERRAIN_USAGE}  --json           the answer as GeoJSON: a feature for each line, or a point where the ground stands too high
`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  '--role': 'value',
  '--from-height': 'value',
  '--to-height': 'value',
  '--least-fall': 'value',
  '--deepest': 'value',
  '--highest': 'value',
  '--json': 'switch',
} as const;

export const command: Command = {
  name: 'route',
  summary: 'a line to propose between two places',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [from, to] = endsFrom(flags);
    const request = {
      from: { position: from, height: flags.quantity('--from-height', 'height') ?? 0 },
      to: { position: to, height: flags.quantity('--to-height', 'height') ?? 0 },
      role: roleFrom(flags),
      settings: {
        ...USUAL_ROUTE_SETTINGS,
        leastFall: atLeastNought(flags, '--least-fall', 'ratio') ?? USUAL_ROUTE_SETTINGS.leastFall,
        deepest: atLeastNought(flags, '--deepest', 'height') ?? USUAL_ROUTE_SETTINGS.deepest,
        highest: atLeastNought(flags, '--highest', 'height') ?? USUAL_ROUTE_SETTINGS.highest,
      },
    };
    const { value: proposal, terrain } = await withTerrain(flags, io, {
      use: (terrain) => proposeRoute(request, terrain),
    });
    if (proposal.kind === 'no-height')
      throw new InputError(`found no height at ${placeWords(proposal.at)}, expected one`);
    if (proposal.kind === 'too-wide')
      throw new InputError('found too many ways to follow, expected ends nearer together');
    warnOfGuesses(terrain, 'metric', io);
    if (flags.has('--json')) io.out(`${JSON.stringify(asGeoJson(proposal, terrainOf(terrain)))}\n`);
    else io.out(asText(proposal) + terrainText(terrain, 'metric'));
  },
};

type Answer = Exclude<RouteProposal, { kind: 'no-height' | 'too-wide' }>;

function endsFrom(flags: Flags): [Position, Position] {
  const [from, to, stray] = flags.operands;
  if (from === undefined || to === undefined || stray !== undefined) {
    throw new InputError(
      `found ${flags.operands.length} places, expected two, such as -39.9964,38.0011 -39.9933,38.0026`,
    );
  }
  return [placeFrom(from), placeFrom(to)];
}

function placeFrom(text: string): Position {
  const parts = text.split(',');
  const [lon = Number.NaN, lat = Number.NaN] = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (parts.length === 2 && Math.abs(lon) <= 180 && Math.abs(lat) <= 90) return { lon, lat };
  throw new InputError(`found ${text}, expected a place as longitude,latitude in degrees`);
}

const ROLES: readonly RouteRole[] = ['delivery', 'supply', 'gravity', 'drive'];

function roleFrom(flags: Flags): RouteRole {
  const text = required(flags.text('--role'), '--role', ROLES.join(', '));
  const role = ROLES.find((known) => known === text);
  if (role === undefined) throw new InputError(`--role: found ${text}, expected ${ROLES.join(', ')}`);
  return role;
}

function atLeastNought(flags: Flags, flag: string, kind: 'height' | 'ratio'): number | null {
  const value = flags.quantity(flag, kind);
  if (value !== null && value < 0) throw new InputError(`${flag}: found ${flags.text(flag)}, expected 0 or more`);
  return value;
}

const placeWords = ({ lon, lat }: Position): string => `${lon},${lat}`;

function routesOf(proposal: Answer): readonly ProposedRoute[] {
  if (proposal.kind !== 'route') return [];
  return proposal.other ? [proposal, proposal.other] : [proposal];
}

const feature = (geometry: unknown, properties: unknown): unknown => ({ type: 'Feature', geometry, properties });

function asGeoJson(proposal: Answer, terrain: unknown): unknown {
  const lines = routesOf(proposal).map((route, k) =>
    feature(
      { type: 'LineString', coordinates: route.vertices.map(({ lon, lat }) => [lon, lat]) },
      { kind: k === 0 ? 'proposed' : 'other', ...figuresOf(route) },
    ),
  );
  const { file, coarser, cell } = proposal.ground;
  const about = { kind: proposal.kind, file, coarser, cell_width_m: cell.width, cell_height_m: cell.height };
  const blocked =
    proposal.kind === 'blocked'
      ? [
          feature(
            { type: 'Point', coordinates: [proposal.at.lon, proposal.at.lat] },
            { kind: 'blocked', excess_m: proposal.excess },
          ),
        ]
      : [];
  return { type: 'FeatureCollection', rillwright: about, terrain, features: [...lines, ...blocked] };
}

function figuresOf({
  length,
  horizontal,
  highest,
  governingLift,
  cut,
}: ProposedRoute): Readonly<Record<string, number>> {
  return {
    length_m: length,
    horizontal_m: horizontal,
    highest_ground_m: highest,
    ...(governingLift === null ? {} : { governing_lift_m: governingLift }),
    ...(cut === null ? {} : { deepest_below_ground_m: cut.below, highest_above_ground_m: cut.above }),
  };
}

function asText(proposal: Answer): string {
  switch (proposal.kind) {
    case 'cut-off':
      return 'no way: the DEM has no heights between the two places\n';
    case 'blocked':
      return `no way falls all along: at ${placeWords(proposal.at)} it would lie ${both(proposal.excess, 'height')} deeper than allowed\n`;
    case 'route':
      return [...routesOf(proposal).map(routeText), coarserText(proposal.ground)].join('');
  }
}

/** Heights read in larger cells than the file's own are told. */
function coarserText({ file, coarser, cell }: ProposalGround): string {
  if (coarser <= 1) return '';
  return `read in cells of ${both(Math.max(cell.width, cell.height), 'length')}, ${Math.round(coarser)} times those of ${file}\n`;
}

const both = (value: number, kind: 'length' | 'height'): string =>
  `${writeQuantity(value, kind, 'metric')} (${writeQuantity(value, kind, 'us')})`;

function routeText(route: ProposedRoute, k: number): string {
  const { governingLift, cut } = route;
  const facts = [
    `${both(route.length, 'length')} along the ground, ${route.vertices.length} vertices`,
    ...(governingLift === null ? [] : [`governing lift ${both(governingLift, 'height')}`]),
    ...(cut === null
      ? []
      : [`at most ${both(cut.below, 'height')} below the ground, ${both(cut.above, 'height')} above`]),
  ];
  return `${k === 0 ? 'proposed' : 'or'}: ${facts.join('; ')}\n`;
}
