import { criterion } from '../../handbook/practice-criteria.ts';
import { moveStandpipeAlong } from '../../plan/edits/edit-standpipe.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Ground } from '../evaluate/evaluate.ts';
import { sheetOfSize, withSize } from '../evaluate/pump-catalogue.ts';
import { pumpSizes } from '../evaluate/pump-sizes.ts';
import { standpipeSpot } from '../evaluate/standpipe-spot.ts';
import type { FindingCode } from '../findings/catalogue.ts';
import type { Evaluation, Finding } from '../result/evaluation.ts';
import { DEEPEST_TRENCH, trenchFor, trenchOf } from '../site/line-profile.ts';
import { type Change, change, withPoint, withRoute } from './change.ts';
import { boreOf, fact, steelDrive, strongerPipes, widerPipes } from './pipe-changes.ts';

/** Where a plan stands when it is to be mended. */
export interface Standing {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly evaluation: Evaluation;
}

type Changes = (at: Standing, finding: Finding) => readonly Change[];

/** Nobody sets anything out finer: lengths and heights are taken up to the next 5 cm. Common practice, no source. */
const STEP: Metres = 0.05;
const upTo = (value: Metres): Metres => Math.ceil(value / STEP - 1e-9) * STEP;

/** No outlet is put on a higher stand. Common practice, no source. */
const TALLEST_STAND: Metres = 3;

function trench({ plan }: Standing, about: RouteId, depth: Metres): readonly Change[] {
  const route = plan.routes.find(({ id }) => id === about);
  const dug = trenchFor(depth);
  if (route === undefined || dug > DEEPEST_TRENCH || dug <= trenchOf(route)) return [];
  const deeper = withRoute(plan, about, (r) => ({ ...r, trenchDepth: dug }));
  return [change('deeper-trench', about, { depth: dug }, deeper)];
}

/** How deep a line must lie for its high place to come so much lower. */
const lowerBy: Changes = (at, finding) => {
  const route = at.plan.routes.find(({ id }) => id === finding.about);
  return route ? trench(at, finding.about, trenchOf(route) + fact(finding, 'by')) : [];
};

const driveOf = ({ plan }: Standing) => plan.routes.find(({ role }) => role === 'drive');
const supplyOf = ({ plan }: Standing) => plan.routes.find(({ role }) => role === 'supply');
const deliveryTo = ({ plan }: Standing, about: string) =>
  plan.routes.find((r) => r.role === 'delivery' && (r.to === about || r.id === about));

/** Takes of a sheet: less water, while it still runs on that. */
function lessIntake({ plan, evaluation }: Standing): readonly Change[] {
  const { pump } = plan;
  const least = evaluation.source.available?.low;
  const limit = Math.min(least ?? 0, evaluation.pump?.supplyLimit?.low ?? Number.MAX_VALUE);
  if (pump?.kind !== 'sheet' || least === undefined) return [];
  const take = Math.floor((limit / pump.count) * 0.88 * 6e5) / 6e5;
  if (take < pump.intakeLeast || take >= (pump.intakeSet ?? pump.intakeMost)) return [];
  const about = plan.points.find(({ role }) => role === 'pump')?.id ?? '';
  return [change('set-intake', about, { flow: take }, { ...plan, pump: { ...pump, intakeSet: take } })];
}

function fewerPumps({ plan }: Standing): readonly Change[] {
  const { pump } = plan;
  if (pump === null || pump.count < 2) return [];
  const about = plan.points.find(({ role }) => role === 'pump')?.id ?? '';
  return [
    change('fewer-pumps', about, { count: pump.count - 1 }, { ...plan, pump: { ...pump, count: pump.count - 1 } }),
  ];
}

/** Pumps of other sizes, those that deliver most first. */
function otherSizes({ plan, ground }: Standing): readonly Change[] {
  const table = pumpSizes(plan, ground);
  const about = plan.points.find(({ role }) => role === 'pump')?.id ?? '';
  return (table?.rows ?? [])
    .filter((row) => row.run !== null && row.size.bore !== plan.pump?.driveBore)
    .toSorted((a, b) => (b.run?.delivery ?? 0) - (a.run?.delivery ?? 0))
    .flatMap((row): Change[] => {
      const sheet = sheetOfSize(row);
      return sheet === null
        ? []
        : [change('pump-size', about, { inches: row.size.inches, bore: row.size.bore }, withSize(plan, sheet))];
    });
}

function standpipeTo({ plan, ground, evaluation }: Standing, about: string, length: Metres): readonly Change[] {
  const spot = length > 0 ? standpipeSpot(plan, ground, length) : null;
  if (spot === null) return [];
  const moved = moveStandpipeAlong(plan, about, spot);
  if (!moved.ok) return [];
  const there = moved.value.plan;
  const fit = (newGround: Ground) => tallEnough(there, about, newGround, evaluation.standpipe?.surge ?? 0);
  return [{ ...change('move-standpipe', about, { length }, there, true), fit }];
}

/** Allowance on the height of a standpipe that is set somewhere else: it is cut to length there. Common practice, no source. */
const SPARE: Metres = 0.15;

/** A standpipe as tall as its ground asks for: to the water at the source, the freeboard and the surge above it. */
function tallEnough(plan: Plan, id: string, ground: Ground, surge: Metres): Plan {
  const source = plan.points.find(({ role }) => role === 'source');
  const [high, low] = [ground.points.get(source?.id ?? '')?.ground, ground.points.get(id)?.ground];
  if (source?.role !== 'source' || high == null || low == null) return plan;
  const freeboard = criterion('standpipe-freeboard-least').value;
  const top = upTo(high + source.waterLevel + freeboard + surge + SPARE - low);
  return withPoint(plan, id, (p) =>
    p.role === 'standpipe' ? { ...p, topHeight: Math.max(p.inletHeight + 0.1, top) } : p,
  );
}

const bestStand: Changes = (at) => {
  const result = at.evaluation.standpipe;
  const place = result?.places?.best;
  return result && place ? standpipeTo(at, result.id, place.driveLength) : [];
};

/** Places on the drawn way at lengths within the rules, the usual one first. */
const otherStands: Changes = (at, finding) => {
  const id = at.evaluation.standpipe?.id;
  const rule = at.evaluation.standpipe?.places?.rule;
  if (id === undefined || rule === undefined) return [];
  const shares = [0.4, 0.15, 0.65, 0.9];
  const lengths = shares.map((share) => rule.least + (rule.most - rule.least) * share);
  return [...bestStand(at, finding), ...lengths.flatMap((length) => standpipeTo(at, id, length))];
};

const driveLength: Changes = (at, finding) => {
  const id = at.evaluation.standpipe?.id;
  return [...bestStand(at, finding), ...(id === undefined ? [] : standpipeTo(at, id, fact(finding, 'laid')))];
};

/** A vent on the line's crests. */
const vent: Changes = (at, { about }) => {
  const line = deliveryTo(at, about);
  if (line === undefined || line.summits === 'vented') return [];
  return [
    change(
      'vent',
      line.id,
      {},
      withRoute(at.plan, line.id, (r) => ({ ...r, summits: 'vented' })),
    ),
  ];
};

/** The outlet at the tank on a higher stand. */
function higherOutlet({ plan }: Standing, about: string, by: Metres): readonly Change[] {
  const up = upTo(by);
  const point = plan.points.find(({ id }) => id === about);
  if (!(up > 0) || point?.role !== 'tank' || point.inletHeight + up > TALLEST_STAND + 2) return [];
  const raised = withPoint(plan, about, (p) => (p.role === 'tank' ? { ...p, inletHeight: p.inletHeight + up } : p));
  return [change('raise-outlet', about, { by: up }, raised)];
}

/** The weight of a waste valve times a factor, of a ram by its parts; or left to the planner. */
function weight({ plan }: Standing, factor: number | null): readonly Change[] {
  const { pump } = plan;
  if (pump?.kind !== 'ram' || pump.valveWeightHead === null) return [];
  const about = plan.points.find(({ role }) => role === 'pump')?.id ?? '';
  const head = factor === null ? null : pump.valveWeightHead * factor;
  return [
    change('valve-weight', about, head === null ? {} : { head }, { ...plan, pump: { ...pump, valveWeightHead: head } }),
  ];
}

const largerVessel =
  (role: 'tank' | 'trough'): Changes =>
  ({ plan }, finding) => {
    const volume = Math.ceil(fact(finding, 'volume') * 20 - 1e-9) / 20;
    if (!(volume > 0)) return [];
    const larger = withPoint(plan, finding.about, (p) => (p.role === role ? { ...p, volume } : p));
    return [change(role === 'tank' ? 'larger-tank' : 'larger-trough', finding.about, { volume }, larger)];
  };

const wider: Changes = ({ plan }, finding) => {
  const line = plan.routes.find((r) => r.id === finding.about || (r.role === 'delivery' && r.to === finding.about));
  return line ? widerPipes(plan, line.id, fact(finding, 'wider')) : [];
};

const widerSupply: Changes = (at, finding) => {
  const supply = supplyOf(at);
  return supply ? widerPipes(at.plan, supply.id, fact(finding, 'wider')) : [];
};

const lowerInlet: Changes = ({ plan, evaluation }, finding) => {
  const id = evaluation.standpipe?.id;
  const by = upTo(fact(finding, 'lower'));
  const point = plan.points.find((p) => p.id === id);
  if (id === undefined || point?.role !== 'standpipe' || !(by > 0) || point.inletHeight - by < 0.1) return [];
  const lowered = withPoint(plan, id, (p) => (p.role === 'standpipe' ? { ...p, inletHeight: p.inletHeight - by } : p));
  return [change('lower-inlet', id, { by }, lowered)];
};

const steel: Changes = (at) => {
  const drive = driveOf(at);
  return drive ? steelDrive(at.plan, drive.id, 'steel-drive', boreOf(at.plan, drive.id)) : [];
};

const FOR: Readonly<Partial<Record<FindingCode, Changes>>> = {
  'source-short': (at) => [...lessIntake(at), ...fewerPumps(at), ...otherSizes(at)],
  'supply-short': (at, f) => [
    ...lowerInlet(at, f),
    ...widerSupply(at, f),
    ...otherStands(at, f),
    ...lessIntake(at),
    ...otherSizes(at),
  ],
  'supply-air': lowerBy,
  'supply-bore': widerSupply,
  'standpipe-low': ({ plan }, f) => {
    const by = upTo(fact(f, 'by'));
    const taller = withPoint(plan, f.about, (p) =>
      p.role === 'standpipe' ? { ...p, topHeight: p.topHeight + by } : p,
    );
    return [change('taller-standpipe', f.about, { by }, taller)];
  },
  'standpipe-place': otherStands,
  'standpipe-nowhere': (at, f) => [...bestStand(at, f), ...widerSupply(at, f)],
  'drive-rises': (at, f) => trench(at, f.about, fact(f, 'depth')),
  'drive-bent': (at, f) => trench(at, f.about, f.value?.high ?? 0),
  'drive-plastic': steel,
  'drive-length-bore-least': driveLength,
  'drive-length-bore-most': driveLength,
  'drive-length-fall-least': driveLength,
  'drive-length-fall-most': driveLength,
  'pump-bore': (at, f) => steelDrive(at.plan, f.about, 'fitting-drive', fact(f, 'driveBore')),
  'pump-unchosen': otherSizes,
  'back-pressure': (at, f) => [...vent(at, f), ...higherOutlet(at, f.about, fact(f, 'head'))],
  'pump-head': (at, f) => [...vent(at, f), ...higherOutlet(at, f.about, fact(f, 'raise'))],
  'lift-out-of-reach': (at, f) => [...steel(at, f), ...otherSizes(at)],
  'ram-stops': (at) => weight(at, null),
  'valve-sticks': (at, f) => [...weight(at, 1 - fact(f, 'share')), ...weight(at, null)],
  'valve-stays-shut': (at, f) => [...vent(at, f), ...higherOutlet(at, f.about, fact(f, 'raise')), ...weight(at, 1.5)],
  'beat-slow': (at, f) => [...weight(at, 0.7), ...weight(at, 0.5), ...driveLength(at, f)],
  'beat-fast': (at, f) => [...weight(at, 1.5), ...weight(at, 2), ...driveLength(at, f)],
  siphon: vent,
  'siphon-breaks': vent,
  'friction-share': wider,
  'velocity-high': wider,
  'need-unmet': (at, f) => [...otherSizes(at), ...wider(at, f)],
  'pipe-pressure': (at, f) => strongerPipes(at.plan, f.about, fact(f, 'rating')),
  'blocked-pressure': (at, f) => strongerPipes(at.plan, f.about, f.value?.high ?? 0),
  'trough-dry': wider,
  'storage-short': largerVessel('tank'),
  'trough-first-hour': largerVessel('trough'),
  'gravity-air': lowerBy,
  'waste-valve-low': ({ plan }, f) => {
    const by = upTo(fact(f, 'by'));
    const up = withPoint(plan, f.about, (p) =>
      p.role === 'pump' ? { ...p, wasteValveHeight: p.wasteValveHeight + by } : p,
    );
    return [change('raise-waste-valve', f.about, { by }, up)];
  },
  'air-ripple': ({ plan }, f) => {
    const volume = fact(f, 'volume');
    if (plan.pump?.kind !== 'ram' || !(volume > 0)) return [];
    return [change('air-chamber', f.about, { volume }, { ...plan, pump: { ...plan.pump, airChamber: volume } })];
  },
  'frost-depth': (at, f) => trench(at, f.about, fact(f, 'laid') + fact(f, 'by')),
};

/** Changes that could mend a finding, the least trouble first; none where only another place does. */
export function changesFor(at: Standing, finding: Finding): readonly Change[] {
  return FOR[finding.code as FindingCode]?.(at, finding) ?? [];
}
