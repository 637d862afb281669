import type { Position } from '../../geodesy/position.ts';
import { type PipeRow, pipeRows } from '../../handbook/pipe-rows.ts';
import { startingPoint } from '../../plan/model/empty-plan.ts';
import type {
  Plan,
  PlanPipe,
  PlanPoint,
  PlanRoute,
  PumpChoice,
  SourcePoint,
  TankPoint,
} from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';

/** The lines of a system on the map, ends among them. */
export interface SystemLines {
  readonly source: SourcePoint;
  readonly standpipe: { readonly position: Position; readonly height: Metres; readonly inletHeight: Metres } | null;
  readonly pump: { readonly position: Position; readonly wasteValveHeight: Metres };
  readonly tank: TankPoint;
  readonly supply: readonly Position[];
  readonly drive: readonly Position[];
  readonly delivery: readonly Position[];
  /** How deep the drive pipe is dug in where a shallow trench is not enough; null where it is. */
  readonly driveTrench: Metres | null;
  /** Whether the delivery line passes a summit above its outlet, which wants a vent. */
  readonly vented: boolean;
}

export interface SystemPipes {
  readonly supply: PlanPipe;
  readonly drive: PlanPipe;
  readonly delivery: PlanPipe;
}

/** The plan of a system: what the base says of source, herd and prices, and nothing else drawn. */
export function systemPlan(base: Plan, lines: SystemLines, pipes: SystemPipes, pump: PumpChoice | null): Plan {
  const { source, standpipe, tank } = lines;
  const points: PlanPoint[] = [source];
  const start = standpipe ? 'standpipe' : source.id;
  if (standpipe) {
    const point = startingPoint('standpipe', 'standpipe', 'Standpipe', standpipe.position);
    if (point.role === 'standpipe') {
      points.push({ ...point, inletHeight: standpipe.inletHeight, topHeight: standpipe.height });
    }
  }
  const ram = startingPoint('pump', 'pump', 'Pump', lines.pump.position);
  if (ram.role === 'pump') points.push({ ...ram, wasteValveHeight: lines.pump.wasteValveHeight });
  points.push(tank);
  const routes: PlanRoute[] = [
    ...(standpipe ? [route('supply', source.id, 'standpipe', lines.supply, pipes.supply)] : []),
    {
      ...route('drive', start, 'pump', lines.drive, pipes.drive),
      ...(lines.driveTrench !== null && { trenchDepth: lines.driveTrench }),
    },
    {
      ...route('delivery', 'pump', tank.id, lines.delivery, pipes.delivery),
      summits: lines.vented ? 'vented' : 'closed',
    },
  ];
  const used = [...(standpipe ? [pipes.supply] : []), pipes.drive, pipes.delivery];
  const unique = [...new Map(used.map((pipe) => [pipe.id, pipe])).values()];
  return { ...base, points, routes, pipes: unique, pump, measurements: [] };
}

function route(
  role: PlanRoute['role'],
  from: string,
  to: string,
  vertices: readonly Position[],
  pipe: PlanPipe,
): PlanRoute {
  const name = `${role.charAt(0).toUpperCase()}${role.slice(1)} line`;
  return {
    id: role === 'delivery' ? `delivery-${to}` : role,
    role,
    name,
    from,
    to,
    vertices,
    pipe: pipe.id,
    fittings: [],
    summits: 'closed',
    note: '',
  };
}

/** Series of pipe that a system is proposed in, by the units that the user buys in; light to heavy where there are several. */
const SERIES = {
  metric: {
    supply: 'pe100-sdr17-',
    delivery: ['pe100-sdr17-', 'pe100-sdr11-', 'pe100-sdr9-', 'pe100-sdr7.4-'],
    drive: 'steel-medium-',
  },
  us: {
    supply: 'pe4710-dr17-',
    delivery: ['pe4710-dr13.5-', 'pe4710-dr11-', 'pe4710-dr9-', 'pe4710-dr7-'],
    drive: 'steel-sch40-',
  },
} as const;

const ofSeries = (prefix: string): readonly PipeRow[] => pipeRows().filter(({ id }) => id.startsWith(prefix));

export const asPlanPipe = (row: PipeRow): PlanPipe => ({ id: row.id.replaceAll('.', '-'), kind: 'row', row: row.id });

/** The steel pipe whose bore is nearest to a drive bore. */
export function drivePipeFor(plan: Plan, bore: Metres): PipeRow | null {
  return nearest(ofSeries(SERIES[plan.units].drive), bore);
}

function nearest(rows: readonly PipeRow[], bore: Metres): PipeRow | null {
  return rows.reduce<PipeRow | null>(
    (best, row) => (best === null || Math.abs(row.bore - bore) < Math.abs(best.bore - bore) ? row : best),
    null,
  );
}

/** Supply pipes, small to large. */
export const supplyPipes = (plan: Plan): readonly PipeRow[] => ofSeries(SERIES[plan.units].supply);

/** Delivery pipes by outside diameter, each with its classes from light to heavy. */
export function deliveryPipes(plan: Plan): readonly (readonly PipeRow[])[] {
  const all = SERIES[plan.units].delivery.flatMap(ofSeries);
  const diameters = [...new Set(all.map((row) => row.outsideDiameter))].toSorted((a, b) => a - b);
  return diameters.map((diameter) =>
    all.filter((row) => row.outsideDiameter === diameter).toSorted((a, b) => (a.rating ?? 0) - (b.rating ?? 0)),
  );
}
