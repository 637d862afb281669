import type { TankPoint } from '../../plan/model/plan.ts';
import { cellSize } from '../../terrain/grid/placed-grid.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import type { PlaceRefusal } from '../places/pump-places.ts';
import type { SiteNote } from '../places/site-note.ts';
import type { SiteWindow } from '../reach/site-window.ts';
import type { ValleyLine } from '../valley/valley-line.ts';
import type { RankedPlace } from './choose-places.ts';
import type { JudgedSystem } from './judge-system.ts';

/** A place for the pump with every system that was tried on it: those that hold or are to be measured, and those that fail. */
export interface Judged {
  readonly ranked: RankedPlace;
  readonly tank: TankPoint;
  readonly found: readonly JudgedSystem[];
  readonly failed: readonly JudgedSystem[];
}

/** What is known of the other places when one is told. */
interface PlaceTold {
  readonly judged: readonly Judged[];
  readonly refusals: readonly PlaceRefusal[];
  readonly best: JudgedSystem | null;
}

/** More than a twentieth more is worth telling. Common practice, no source. */
const WORTH_TELLING: Ratio = 1.05;

/** Cells wider than this show neither a bank nor the course of a drive pipe. Common practice, no source. */
const COARSE: Metres = 5;

function nearestOf(refusals: readonly PlaceRefusal[]): PlaceRefusal | undefined {
  const order = ['drive-blocked', 'waste-stands', 'supply-blocked', 'fall-great', 'fall-short'];
  return refusals.toSorted((a, b) => order.indexOf(a.code) - order.indexOf(b.code) || a.excess - b.excess)[0];
}

export function mostWater(systems: readonly JudgedSystem[]): JudgedSystem | null {
  return systems.reduce<JudgedSystem | null>(
    (best, s) => (best === null || s.delivery.likely > best.delivery.likely ? s : best),
    null,
  );
}

/** What a search has to tell: of the ground, of a place, and why there is none. */
export class SearchNotes {
  readonly all: SiteNote[] = [];
  readonly #site: SiteWindow;

  constructor(site: SiteWindow) {
    this.#site = site;
  }

  add(code: SiteNote['code'], data: SiteNote['data']): void {
    this.all.push({ code, data });
  }

  /** What the cells keep from view. */
  ofGround(): void {
    const { window } = this.#site;
    const { width, height } = cellSize(window.cell);
    const cell = Math.max(width, height);
    if (window.coarser > 1) this.add('read-coarser', { cell, coarser: window.coarser });
    if (cell > COARSE) this.add('coarse-cells', { cell });
  }

  /** Why no pump can stand anywhere: what came nearest, with its spot and amount. */
  noPlace(refusals: readonly PlaceRefusal[], valley: ValleyLine, water: Metres): void {
    const nearest = nearestOf(refusals);
    if (nearest) {
      this.all.push(this.#refusalNote(nearest));
      return;
    }
    const far = valley.at.at(-1) ?? 0;
    this.add('fall-short', { fall: water - (valley.level.at(-1) ?? water), length: far, excess: 0 });
  }

  #refusalNote({ code, cell, excess }: PlaceRefusal): SiteNote {
    const at = this.#site.positionOf(cell);
    return { code, data: { excess, ...(at && { lon: at.lon, lat: at.lat }) } };
  }

  /** Which finding stops most of what was tried; or that the need is not met, and by how much. */
  noSystem(judged: readonly Judged[], intake: CubicMetresPerSecond): void {
    const failed = judged.flatMap((each) => each.failed);
    if (failed.length === 0) {
      this.add('no-size', { fall: Math.max(...judged.map(({ ranked }) => ranked.place.fall)), intake });
      return;
    }
    const running = failed.filter((system) => system.runs !== 'fails');
    const most = running.reduce((best, s) => Math.max(best, s.delivery.likely), 0);
    const need = running[0]?.evaluation.tanks[0]?.demandPerDay ?? 0;
    if (running.length > 0 && most < need) {
      this.add('need-unmet', { most, need });
      return;
    }
    const codes = new Map<string, number>();
    for (const { evaluation } of failed) {
      for (const f of evaluation.findings) {
        if (f.verdict === 'fails') codes.set(f.code, (codes.get(f.code) ?? 0) + 1);
      }
    }
    const [worst] = [...codes].toSorted((a, b) => b[1] - a[1]);
    this.add('all-fail', { finding: worst?.[0] ?? 'none', tried: failed.length });
  }

  /** Why not more: what stops the pump from standing farther down, what it fails by, or the pipe that more would take. */
  because(each: Judged, { judged, refusals, best }: PlaceTold): SiteNote {
    const stops = best?.evaluation.findings.find((f) => f.verdict === 'fails');
    if (stops) return { code: 'place-fails', data: { finding: stops.code } };
    const water = best?.delivery.likely ?? 0;
    const more = judged
      .flatMap((other) => mostWater(other.found) ?? [])
      .filter((s) => s.delivery.likely > water * WORTH_TELLING)
      .toSorted((a, b) => a.pipe - b.pipe)[0];
    if (more)
      return {
        code: 'more-elsewhere',
        data: { more: more.delivery.likely - water, pipe: more.pipe - (best?.pipe ?? 0) },
      };
    const below = refusals.filter((r) => this.#farther(r.cell, each));
    const nearest = nearestOf(below);
    if (nearest) return this.#refusalNote(nearest);
    return { code: 'most-here', data: {} };
  }

  #farther(cell: number, { ranked }: Judged): boolean {
    const { heights } = this.#site.ground;
    return (heights[cell] as number) < (heights[ranked.place.pump] as number);
  }
}
