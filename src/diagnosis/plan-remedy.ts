import { pipeRows } from '../handbook/pipe-rows.ts';
import type { Edit } from '../plan/edits/edit.ts';
import { changeRoute, setRoutePipe } from '../plan/edits/edit-routes.ts';
import { setPump } from '../plan/edits/edit-water.ts';
import type { Plan, PlanRoute } from '../plan/model/plan.ts';
import type { CauseCode } from './model/causes.ts';

/** A remedy that is a change of the plan: one step, undone like any other. */
export interface PlanRemedy {
  readonly code: 'vent-delivery' | 'take-less' | 'steel-drive';
  readonly make: (plan: Plan) => Edit;
}

/** How much of what it takes a ram takes that was eased, so that a supply that falls a little short keeps up. */
const EASED = 0.8;

/** The remedy of a cause as a change of this plan; null where it is work at the pump alone. */
export function planRemedy(plan: Plan, code: CauseCode): PlanRemedy | null {
  if (code === 'delivery-summit' || code === 'no-back-pressure') return ventDelivery(plan);
  if (code === 'level-sunk' || code === 'valve-heavy') return takeLess(plan);
  return code === 'drive-pipe-soft' ? steelDrive(plan) : null;
}

function ventDelivery(plan: Plan): PlanRemedy | null {
  const closed = plan.routes.find((route) => route.role === 'delivery' && route.summits === 'closed');
  if (closed === undefined) return null;
  return { code: 'vent-delivery', make: (p) => changeRoute(p, closed.id, { summits: 'vented' }) };
}

/** A lighter waste valve, or a sheet's setting, takes less from the supply. */
function takeLess(plan: Plan): PlanRemedy | null {
  const { pump } = plan;
  if (pump?.kind === 'ram' && pump.valveWeightHead !== null) {
    const valveWeightHead = EASED * pump.valveWeightHead;
    return { code: 'take-less', make: (p) => setPump(p, { ...pump, valveWeightHead }) };
  }
  if (pump?.kind !== 'sheet') return null;
  const eased = Math.max(pump.intakeLeast, EASED * (pump.intakeSet ?? pump.intakeMost));
  if (eased >= (pump.intakeSet ?? pump.intakeMost)) return null;
  return { code: 'take-less', make: (p) => setPump(p, { ...pump, intakeSet: eased }) };
}

/** A drive pipe that is not of steel, in the steel size whose bore is nearest. */
function steelDrive(plan: Plan): PlanRemedy | null {
  const drive = plan.routes.find(({ role }) => role === 'drive');
  const bore = drive && boreOf(plan, drive);
  if (drive === undefined || bore == null) return null;
  const steel = pipeRows().filter(({ material }) => material === 'steel');
  const near = steel.reduce((best, row) => (Math.abs(row.bore - bore) < Math.abs(best.bore - bore) ? row : best));
  return { code: 'steel-drive', make: (p) => setRoutePipe(p, drive.id, { kind: 'row', row: near.id }) };
}

/** Bore of a route's pipe where it is not of steel already. */
function boreOf(plan: Plan, route: PlanRoute): number | null {
  const pipe = plan.pipes.find(({ id }) => id === route.pipe);
  if (pipe === undefined) return null;
  if (pipe.kind === 'own') return pipe.material === 'steel' ? null : pipe.bore;
  const row = pipeRows().find(({ id }) => id === pipe.row);
  return row === undefined || row.material === 'steel' ? null : row.bore;
}
