import { siteOf } from '../evaluation/site/site.ts';
import { accuracyOn, placesOf, reachAims, reachMap, reachStart, reachWays } from '../siting/reach/reach-of-plan.ts';
import { reachTile } from '../siting/reach/reach-tile.ts';
import { type ReachScene, reachEdges, reachLine, readingAt } from '../siting/reach/reach-view.ts';
import { readSiteWindow } from '../siting/reach/site-window.ts';
import { proposeSystems } from '../siting/systems/propose-systems.ts';
import type { GridTerrain } from '../terrain/ground/ground-window.ts';
import { DAY_S } from '../units/factor.ts';
import type { Answer, Question, ToBitmap } from './messages.ts';
import type { Handlers, Job } from './serve.ts';

type SitingKind = 'reach-map' | 'reach-tile' | 'reach-at' | 'reach-line' | 'site-systems';

/** Lets messages in, such as word of a stop. */
const pause = () => new Promise<void>((go) => setTimeout(go, 0));

/** Answers about where pumps and tanks can be, on the terrain that is open; the newest reach map is kept to be looked at. */
export function sitingService(terrain: () => GridTerrain, toBitmap: ToBitmap): Pick<Handlers, SitingKind> {
  let scene: ReachScene | null = null;
  let key = 0;
  return {
    'reach-map': async (question, job) => {
      const made = await makeScene(terrain(), question, job);
      if (!('map' in made)) {
        scene = null;
        return made;
      }
      scene = made;
      key += 1;
      const { window } = made.site;
      const { cell } = window;
      return {
        kind: 'map',
        key,
        edges: made.edges,
        need: made.need,
        cell: Math.max(
          Math.hypot(cell.eastPerColumn, cell.northPerColumn),
          Math.hypot(cell.eastPerRow, cell.northPerRow),
        ),
        coarser: window.coarser,
      };
    },
    'reach-tile': async (spec) =>
      toBitmap(scene ? reachTile(scene, spec) : new Uint8ClampedArray(4 * spec.size * spec.size), spec.size),
    'reach-at': async ({ position }) => scene && readingAt(scene, scene.site.cellAt(position)),
    'reach-line': async ({ position }) => scene && reachLine(scene, position),
    'site-systems': async (request, job) =>
      proposeSystems(request, terrain(), {
        signal: job.signal,
        pause,
        onProgress: (share) => job.progress({ done: Math.round(share * PERCENT), of: PERCENT }),
      }),
  };
}

const PERCENT = 100;

async function makeScene(
  terrain: GridTerrain,
  { plan, ground, margin, mostCells, avoid, units }: Question<'reach-map'>,
  job: Job,
): Promise<ReachScene | Extract<Answer<'reach-map'>, { kind: 'none' }>> {
  const around = placesOf(plan);
  if (around.length === 0) return { kind: 'none', why: 'no-source' };
  const read = await readSiteWindow(terrain, { around, margin, mostCells, avoid }, job.signal);
  if (read.kind !== 'read') return { kind: 'none', why: 'outside' };
  const { site } = read;
  const start = reachStart(plan, ground, site);
  if (typeof start === 'string') return { kind: 'none', why: start };
  const ways = [];
  for (const aim of reachAims(start)) {
    ways.push(reachWays(site.ground, start.pump, aim));
    job.progress({ done: ways.length, of: 3 });
    await pause();
    job.signal.throwIfAborted();
  }
  const map = reachMap(site.ground, start, ways, accuracyOn(plan, terrain));
  const perDay = siteOf(plan, ground).demandPerDay;
  const need = perDay === null ? null : perDay / DAY_S;
  return { site, ways, map, edges: reachEdges(map, units), need, confidence: plan.confidence };
}
