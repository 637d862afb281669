import { criterion } from '../../handbook/practice-criteria.ts';
import { exactly } from '../compare.ts';
import type { StandpipePlaces, StandpipeResult } from '../evaluation.ts';
import type { SolvedSystem } from '../system.ts';
import { type Judged, judge, undecided } from './finding.ts';

/** How far from its stretch a standpipe may stand: drawn lines are not set out to the foot. */
const PLACE_TOLERANCE = 0.5;

/** The source, the supply line and the standpipe: does enough water stand above the drive pipe's inlet while it runs? */
export function judgeSource(system: SolvedSystem, standpipe: StandpipeResult | null): Judged[] {
  return [
    ...judgeYield(system, standpipe),
    ...judgeFall(system),
    ...judgeSupply(system),
    ...judgeStandpipe(system, standpipe),
  ];
}

function judgeYield(system: SolvedSystem, result: StandpipeResult | null): Judged[] {
  const { site, model, known, layout } = system;
  const { confidence } = site.plan;
  const about = site.arrangement.source?.id ?? '';
  if (model.available === null) return [judge('yield-unread', confidence, { about, spread: undecided(0), limit: 1 })];
  const need = model.behaviour.intakeSet ?? model.behaviour.intakeLeast;
  if (need <= 0) return [];
  const output = layout.shared('available');
  const air = result?.course.airAfter ?? null;
  const facts = air === null ? {} : { air };
  return [judge('source-short', confidence, { about, spread: known.spread(output), limit: need, output, facts })];
}

function judgeFall({ site, known, layout }: SolvedSystem): Judged[] {
  const output = layout.shared('fall');
  const about = site.arrangement.pump?.id ?? '';
  return [judge('fall-small', site.plan.confidence, { about, spread: known.spread(output), output })];
}

function judgeSupply({ site, model, known, layout }: SolvedSystem): Judged[] {
  const { supply, drive } = site.arrangement;
  if (supply === null || model.supply === null) return [];
  const { confidence } = site.plan;
  const found: Judged[] = [];
  const need = model.behaviour.intakeSet ?? model.behaviour.intakeLeast;
  if (need > 0 && model.standpipe !== null) {
    const output = layout.shared('supply-limit');
    found.push(
      judge('supply-short', confidence, {
        about: supply.id,
        spread: known.spread(output),
        limit: need,
        output,
      }),
    );
  }
  if (model.supply.highPlaces.length > 0) {
    const output = layout.shared('supply-clearance');
    const at = model.supply.highPlaces[0]?.at ?? 0;
    found.push(
      judge('supply-air', confidence, {
        about: supply.id,
        spread: known.spread(output),
        limit: 0,
        output,
        facts: { at },
      }),
    );
  }
  const bore = site.pipes.get(supply.pipe)?.bore;
  const driveBore = drive ? site.pipes.get(drive.pipe)?.bore : undefined;
  if (bore !== undefined && driveBore !== undefined) {
    found.push(
      judge('supply-bore', confidence, {
        about: supply.id,
        spread: exactly(bore / driveBore),
        facts: { bore, driveBore },
      }),
    );
  }
  return found;
}

function judgeStandpipe(system: SolvedSystem, result: StandpipeResult | null): Judged[] {
  const { site, known, layout } = system;
  const { standpipe } = site.arrangement;
  if (standpipe === null) return [];
  const { confidence } = site.plan;
  const surge = result?.surge ?? 0;
  const freeboard = layout.shared('freeboard');
  const top = judge('standpipe-low', confidence, {
    about: standpipe.id,
    spread: known.spread(freeboard),
    limit: criterion('standpipe-freeboard-least').value + surge,
    output: freeboard,
    facts: { surge },
  });
  return result?.places ? [top, ...judgePlace(system, result.places)] : [top];
}

/** How far the standpipe stands outside the stretch of the way on which it can stand: 0 within it. */
function judgePlace({ site }: SolvedSystem, places: StandpipePlaces): Judged[] {
  const { drive } = site.arrangement;
  const length = drive && site.profiles.get(drive.id)?.line.slope;
  const about = site.arrangement.standpipe?.id ?? '';
  if (length == null) return [];
  const outside = places.stretches.map((s) => Math.max(0, s.from - length, length - s.to));
  const { best } = places;
  if (best === null) return [judge('standpipe-nowhere', site.plan.confidence, { about, spread: exactly(0), limit: 1 })];
  return [
    judge('standpipe-place', site.plan.confidence, {
      about,
      spread: exactly(Math.min(...outside)),
      limit: PLACE_TOLERANCE,
      facts: { at: best.driveLength, ground: best.ground, height: best.height },
    }),
  ];
}
