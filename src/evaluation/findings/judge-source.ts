import type { LengthSpan } from '../../ram/cycle/drive-length.ts';
import type { Metres } from '../../units/quantity.ts';
import type { SystemModel } from '../model/system-model.ts';
import type { StandpipePlaces, StandpipeResult } from '../result/evaluation.ts';
import { sourceDrawn } from '../result/results.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { quotient, reachOfTolerance, type Spread, scaled, shifted } from '../statistics/compare.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import { type Judged, judge, sure, undecided } from './finding.ts';

/** How far from its stretch a standpipe may stand: drawn lines are not set out to the foot. */
const PLACE_TOLERANCE = 0.5;

/** The source, the supply line and the standpipe: does enough water stand above the drive pipe's inlet while it runs? */
export function judgeSource(system: SolvedSystem, standpipe: StandpipeResult | null): Judged[] {
  return [
    ...judgeReadings(system),
    ...judgeYield(system, standpipe),
    ...judgeFall(system),
    ...judgeSupply(system),
    ...judgeStandpipe(system, standpipe),
  ];
}

/** How many pumps stand side by side; nothing for one. */
const pumpsFact = ({ pumps }: SystemModel): Readonly<Record<string, number>> => (pumps > 1 ? { pumps } : {});

/** Whether the flow was timed often enough to be believed. A figure that somebody states has no timings. */
function judgeReadings({ site }: SolvedSystem): Judged[] {
  const { yieldReadings, confidence } = site.plan;
  const times = yieldReadings.flatMap((r) => (r.kind === 'timed' ? r.times : []));
  if (times.length === 0) return [];
  const about = site.arrangement.source?.id ?? '';
  return [judge('readings-few', confidence, { about, spread: sure(times.length) })];
}

function judgeYield(system: SolvedSystem, result: StandpipeResult | null): Judged[] {
  const { site, model, known, layout } = system;
  const { confidence } = site.plan;
  const about = site.arrangement.source?.id ?? '';
  if (model.available === null) return [judge('yield-unread', confidence, { about, spread: undecided(0), limit: 1 })];
  const need = model.behaviour.intakeSet ?? model.behaviour.intakeLeast;
  if (need <= 0) return [];
  const output = layout.shared('left-for-pump');
  const air = result?.course.airAfter ?? null;
  const drawn = sourceDrawn(system)?.open ?? 0;
  const facts = {
    ...(air !== null && { air }),
    ...(drawn > 0 && { drawn }),
    ...pumpsFact(model),
  };
  const limitReach = reachOfTolerance(TOLERANCES.intake.value * need);
  return [
    judge('source-short', confidence, { about, spread: known.spread(output), limit: need, limitReach, output, facts }),
  ];
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
        limitReach: reachOfTolerance(TOLERANCES.intake.value * need),
        output,
        facts: pumpsFact(model),
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
  const pipe = site.pipes.get(supply.pipe);
  const drivePipe = drive ? site.pipes.get(drive.pipe) : undefined;
  if (pipe !== undefined && drivePipe !== undefined) {
    found.push(
      judge('supply-bore', confidence, {
        about: supply.id,
        // One pipe with the section of several is wider by the root of their number.
        spread: scaled(quotient(boreSpread(pipe), boreSpread(drivePipe)), 1 / Math.sqrt(model.pumps)),
        facts: { bore: pipe.bore, driveBore: drivePipe.bore, ...pumpsFact(model) },
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
  const stands = known.spread(freeboard);
  const top = judge('standpipe-low', confidence, {
    about: standpipe.id,
    spread: shifted(stands, -surge),
    output: freeboard,
    facts: { surge },
  });
  return result?.places ? [top, ...judgePlace(system, result.places)] : [top];
}

/** The best place's margin is as sure as the water over the drawn inlet is, or as a length is. */
function marginSpread({ known, layout, site }: SolvedSystem, { margin, lacks }: StandpipePlaces): Spread {
  if (lacks === 'cover') {
    const drawn = known.spread(layout.shared('over-inlet'));
    return shifted(drawn, margin - drawn.estimate.likely);
  }
  const { drive } = site.arrangement;
  const length = (drive && site.profiles.get(drive.id)?.line.slope) ?? 0;
  return shifted(laidLength(length), margin - length);
}

/**
 * How far a length of drive pipe lies outside the places for a standpipe, below 0 within. One that keeps the rules of length
 * lies within them: whether its inlet is covered is the business of the supply line.
 */
function outsideOf({ rule, stretches }: StandpipePlaces, length: Metres): Metres {
  const beyond = (span: LengthSpan) => Math.max(span.least - length, length - span.most);
  if (beyond(rule) <= 0) return beyond(rule);
  return Math.min(...stretches.map(({ from, to }) => beyond({ least: from, most: to })));
}

/** Whether there is a place for a standpipe at all, and how far outside the stretch of such places the drawn one stands. */
function judgePlace(system: SolvedSystem, places: StandpipePlaces): Judged[] {
  const { site } = system;
  const { drive } = site.arrangement;
  const length = drive && site.profiles.get(drive.id)?.line.slope;
  const about = site.arrangement.standpipe?.id ?? '';
  if (length == null) return [];
  const { confidence } = site.plan;
  const { best, margin, lacks, rule } = places;
  const kept = length >= rule.least && length <= rule.most;
  // Where only the drawn place could be, its supply line is judged.
  if (kept && margin < 0) return [];
  const anywhere = judge('standpipe-nowhere', confidence, {
    about,
    spread: marginSpread(system, places),
    limit: 0,
    facts: lacks === 'length' ? { short: -margin } : {},
  });
  if (best === null) return [anywhere];
  return [
    anywhere,
    judge('standpipe-place', confidence, {
      about,
      spread: shifted(laidLength(length), outsideOf(places, length) - length),
      limit: PLACE_TOLERANCE,
      facts: { at: best.driveLength, ground: best.ground, height: best.height },
    }),
  ];
}
