import { compare, spreadOf } from '../../evaluation/statistics/compare.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Position } from '../../geodesy/position.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { fromSi, toSi } from '../../units/unit.ts';
import type { Ways } from '../fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';
import { lineTo } from './line-to.ts';
import { type ReachMap, WAY_KIND } from './reach-map.ts';
import type { SiteWindow } from './site-window.ts';

/** A reach map with what it was made on, to be looked at. */
export interface ReachScene {
  readonly site: SiteWindow;
  readonly ways: readonly Ways[];
  readonly map: ReachMap;
  /** Flows that part its classes, rising, m³/s. */
  readonly edges: readonly CubicMetresPerSecond[];
  /** What has to arrive, m³/s; null where no need is known. */
  readonly need: CubicMetresPerSecond | null;
  readonly confidence: Ratio;
}

/** How many classes of water a map has at most. */
const MOST_CLASSES = 6;
const STEPS = [1, 2, 5] as const;

/** Round figures in the unit shown that part what arrives into classes, from the most that arrives down. */
export function reachEdges({ likely }: ReachMap, units: UnitSystem): CubicMetresPerSecond[] {
  const unit = units === 'us' ? 'usGallonPerDay' : 'litrePerDay';
  const most = fromSi(
    likely.reduce((best, q) => Math.max(q, best), 0),
    unit,
  );
  if (!(most > 0)) return [];
  const edges: number[] = [];
  let decade = 10 ** Math.floor(Math.log10(most));
  for (let step = STEPS.length - 1; edges.length < MOST_CLASSES - 1; step--) {
    if (step < 0) {
      step = STEPS.length - 1;
      decade /= 10;
    }
    const edge = (STEPS[step] as number) * decade;
    if (edge < most) edges.unshift(edge);
  }
  return edges.map((edge) => toSi(edge, unit));
}

/** What arrives at one place, to be read. */
export interface ReachReading {
  readonly likely: CubicMetresPerSecond;
  readonly low: CubicMetresPerSecond;
  readonly high: CubicMetresPerSecond;
  readonly lift: Metres;
  readonly length: Metres;
  readonly kind: number;
  /** Class of what arrives, from 0; −1 where nothing does. */
  readonly level: number;
  /** Whether the need is met there; null where none is known or nothing arrives. */
  readonly needMet: Verdict | null;
}

/** What arrives at a cell; null off the map and where the ground is unknown or shut. */
export function readingAt(scene: ReachScene, cell: number | null): ReachReading | null {
  const { map, site, edges, need, confidence } = scene;
  if (cell === null || site.ground.open[cell] !== 1) return null;
  const likely = map.likely[cell] as number;
  const low = map.low[cell] as number;
  const high = map.high[cell] as number;
  const arrives = likely > 0;
  let level = arrives ? 0 : -1;
  while (arrives && level < edges.length && likely >= (edges[level] as number)) level += 1;
  return {
    likely,
    low,
    high,
    lift: map.lift[cell] as number,
    length: map.length[cell] as number,
    kind: map.kind[cell] as number,
    level,
    needMet:
      need === null || !arrives
        ? null
        : compare(spreadOf({ low, likely, high }), { limit: need, side: 'at-least', confidence }).verdict,
  };
}

/** The line to lay to a place, from the pump; null where none leads. */
export function reachLine(
  scene: ReachScene,
  position: Position,
): { readonly vertices: readonly Position[]; readonly vented: boolean } | null {
  const cell = scene.site.cellAt(position);
  const reading = readingAt(scene, cell);
  const way = cell === null ? undefined : scene.ways[scene.map.way[cell] as number];
  if (cell === null || !reading || reading.level < 0 || !way) return null;
  const places = lineTo(scene.site.ground, way, cell, USUAL_ROUTE_SETTINGS);
  const vertices = places.flatMap((place) => scene.site.positionAt(place) ?? []);
  return vertices.length < 2 ? null : { vertices, vented: reading.kind === WAY_KIND.summit };
}
