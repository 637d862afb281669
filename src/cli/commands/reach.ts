import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { type ReachMap, WAY_KIND } from '../../siting/reach/reach-map.ts';
import {
  accuracyOn,
  type NoReach,
  placesOf,
  reachAims,
  reachMap,
  reachStart,
  reachWays,
} from '../../siting/reach/reach-of-plan.ts';
import { readSiteWindow, type SiteWindow } from '../../siting/reach/site-window.ts';
import { keysOfGrid } from '../../terrain/clip/clip-elevation.ts';
import { keysWithoutHeights, writeBands } from '../../terrain/clip/write-heights.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import type { OpenedGrid } from '../../terrain/open/opened-grid.ts';
import { DAY_S, LITRE_M3 } from '../../units/factor.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { readAvoidFile } from '../input/avoid-file.ts';
import { readFlags, required } from '../input/flags.ts';
import { type Command, InputError } from '../input/io.ts';
import { planFrom, unitsFrom } from '../input/plan-operand.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';

const MARGIN_M = 2000;
const CELLS = 4_000_000;

const USAGE = `rillwright reach PLAN --dem FILE… --out FILE.tif [--margin 2000m] [--avoid FILE.geojson]

What would arrive at a tank on every cell around the plan's pump, as a GeoTIFF in the coordinates of the elevation model.
Bands: likely, low and high litres a day; governing lift, m; length of the line, m; kind of way: 0 out of reach, 1 rises all
the way, 2 has sags, 3 passes a summit above its outlet, 4 too low for the pump. A cell without a height is nodata.

  --out          the new file
  --margin       how far around source and pump to look; ${MARGIN_M} m when not given
  --avoid        areas that no line may cross: GeoJSON polygons, and points at which they may be crossed
  --units        metric or us, for the text; the plan's own when not given
${TERRAIN_USAGE}`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  '--out': 'value',
  '--margin': 'value',
  '--avoid': 'value',
  '--units': 'value',
} as const;

export const command: Command = {
  name: 'reach',
  summary: 'what would arrive on every cell, as a GeoTIFF',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const out = required(flags.text('--out'), '--out', 'the name of a new file, such as reach.tif');
    const plan = await planFrom(flags, io);
    const units = unitsFrom(flags) ?? plan.units;
    const path = flags.text('--avoid');
    const avoid = path === null ? [] : readAvoidFile(path, await io.readText(path));
    const wish = { margin: flags.quantity('--margin', 'length') ?? MARGIN_M, mostCells: CELLS, avoid };
    const {
      value: { bytes, map, site },
    } = await withTerrain(flags, io, {
      accuracy: plan.terrain?.accuracy ?? null,
      use: async (terrain, grids) => reachFile(plan, terrain, grids, wish),
    });
    await io.writeFile(out, new Uint8Array(bytes));
    const most = map.likely.reduce((best, q) => Math.max(best, q), 0) * DAY_S;
    const { width, height } = cellOf(site);
    io.out(
      `${out}: ${map.columns} × ${map.rows} cells of ${writeQuantity(Math.max(width, height), 'length', units)}, at most ${writeQuantity(most, 'daily-volume', units)}\n`,
    );
    if (site.window.coarser > 1) io.out(`read in cells ${site.window.coarser} times as wide as the file's own\n`);
  },
};

const cellOf = ({ window: { cell } }: SiteWindow) => ({
  width: Math.hypot(cell.eastPerColumn, cell.northPerColumn),
  height: Math.hypot(cell.eastPerRow, cell.northPerRow),
});

const WHY: Readonly<Record<NoReach, string>> = {
  'no-source': 'found a plan without a source, expected one with source and pump',
  'no-pump': 'found a plan without a pump, expected one with source and pump',
  'no-flow': 'found a plan without a flow, expected a reading of the source',
  outside: 'found a pump or a source without a height, expected elevation files that cover both',
};

interface ReachWish {
  readonly margin: number;
  readonly mostCells: number;
  readonly avoid: Parameters<typeof readSiteWindow>[1]['avoid'];
}

async function reachFile(plan: Plan, terrain: GridTerrain, grids: readonly OpenedGrid[], wish: ReachWish) {
  const around = placesOf(plan);
  if (around.length === 0) throw new InputError(WHY['no-source']);
  const read = await readSiteWindow(terrain, { around, ...wish });
  if (read.kind !== 'read') throw new InputError(WHY.outside);
  const { site } = read;
  const start = reachStart(plan, await groundOfPlan(plan, terrain), site);
  if (typeof start === 'string') throw new InputError(WHY[start]);
  const ways = reachAims(start).map((aim) => reachWays(site.ground, start.pump, aim));
  const map = reachMap(site.ground, start, ways, accuracyOn(plan, terrain));
  const keys = keysOfGrid(grids, site.window.file);
  if (!keys) throw new InputError(`${site.window.file}: found a projection without a code, expected a CRS by its code`);
  const frame = {
    columns: map.columns,
    rows: map.rows,
    affine: site.window.affine,
    keys: keysWithoutHeights(keys),
    noData: NO_DATA,
  };
  const bytes = writeBands(bandsOf(map, site.ground.open), frame);
  if (!bytes)
    throw new InputError(`${site.window.file}: found a CRS in more words than there is room for, expected a code`);
  return { bytes, map, site };
}

const NO_DATA = -9999;
const LITRES_A_DAY = DAY_S / LITRE_M3;

function bandsOf(map: ReachMap, open: Uint8Array): ((cell: number) => number)[] {
  const { likely, low, high, lift, length, kind } = map;
  const reached = (cell: number): boolean => (likely[cell] as number) > 0;
  const band =
    (value: (cell: number) => number) =>
    (cell: number): number =>
      open[cell] === 1 ? value(cell) : NO_DATA;
  const where = (values: Float32Array, factor: number) => (cell: number) =>
    reached(cell) ? (values[cell] as number) * factor : NO_DATA;
  const found = (values: Float32Array) => (cell: number) =>
    kind[cell] === WAY_KIND.outOfReach && !reached(cell) ? NO_DATA : (values[cell] as number);
  return [
    band(where(likely, LITRES_A_DAY)),
    band(where(low, LITRES_A_DAY)),
    band(where(high, LITRES_A_DAY)),
    band(found(lift)),
    band(found(length)),
    band((cell) => kind[cell] as number),
  ];
}
