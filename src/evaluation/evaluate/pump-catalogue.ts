import { type PipeRow, pipeRows } from '../../handbook/pipe-rows.ts';
import type { Plan, PointId, PumpSheet, RouteId } from '../../plan/model/plan.ts';
import type { SizeRow, SizeTable } from '../../ram/cycle/size-table.ts';
import type { Metres } from '../../units/quantity.ts';

/** What suits a plan among the usual sizes of ram. */
export interface PumpSizes extends SizeTable {
  /** Tank or trough for which the deliveries are told; null while no line leads anywhere. */
  readonly about: PointId | null;
}

export type PumpSizeRow = SizeRow;

/** Whether two of a size side by side deliver more than one of it does on the same water. */
export function twoDeliverMore({ run, halfRun }: PumpSizeRow): boolean {
  return halfRun !== null && 2 * halfRun.delivery > (run?.delivery ?? 0);
}

/**
 * A pump sheet with the figures of a size as modelled, to be typed over with those of the pump that is bought; null for a size
 * that does not run. Its efficiency is left to the planning band, because the model leaves out what real pumps lose.
 */
export function sheetOfSize({ size, intake }: Pick<PumpSizeRow, 'size' | 'intake'>, count = 1): PumpSheet | null {
  if (intake === null) return null;
  return {
    kind: 'sheet',
    label: `${size.inches} in ram, computer estimate`,
    count,
    driveBore: size.bore,
    intakeLeast: intake.least,
    intakeMost: intake.most,
    intakeSet: null,
    efficiency: null,
    efficiencyCurve: [],
    leastDeliveryHead: null,
    measured: null,
  };
}

/** Steel for a drive pipe: what is sold for it. */
const STEEL = 'steel-sch40-';

/** The steel pipe whose bore is nearest to a bore. */
export function steelOf(bore: Metres): PipeRow | undefined {
  const apart = (row: PipeRow) => Math.abs(Math.log(row.bore / bore));
  return pipeRows()
    .filter(({ id }) => id.startsWith(STEEL))
    .toSorted((a, b) => apart(a) - apart(b))[0];
}

/** A route laid in a pipe of the handbook; a pipe that no route uses any more goes. */
export function laidIn(plan: Plan, id: RouteId, row: string): Plan {
  const known = plan.pipes.find((pipe) => pipe.kind === 'row' && pipe.row === row);
  const pipe = known ?? { id: freeId(plan), kind: 'row' as const, row };
  const routes = plan.routes.map((route) => (route.id === id ? { ...route, pipe: pipe.id } : route));
  const used = new Set(routes.map((route) => route.pipe));
  const pipes = [...plan.pipes, ...(known ? [] : [pipe])].filter((each) => used.has(each.id));
  return { ...plan, routes, pipes };
}

function freeId(plan: Plan): string {
  const taken = new Set(plan.pipes.map(({ id }) => id));
  for (let i = 1; ; i++) if (!taken.has(`pipe-${i}`)) return `pipe-${i}`;
}

/** A plan with a pump of a size and the steel drive pipe that goes with it. */
export function withSize(plan: Plan, sheet: PumpSheet): Plan {
  const drive = plan.routes.find(({ role }) => role === 'drive');
  const row = steelOf(sheet.driveBore);
  const laid = drive && row ? laidIn(plan, drive.id, row.id) : plan;
  return { ...laid, pump: sheet };
}

/** The usual size that the pump of a plan is: the one whose bore is nearest to its drive bore; null where no sheet is given. */
export function sizeOfPump({ pump }: Plan, rows: readonly PumpSizeRow[]): PumpSizeRow | null {
  if (pump?.kind !== 'sheet') return null;
  const off = (row: PumpSizeRow) => Math.abs(Math.log(row.size.bore / pump.driveBore));
  return rows.toSorted((a, b) => off(a) - off(b))[0] ?? null;
}
