import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { roughnessOf } from '../../handbook/roughness.ts';
import { waveMaterial } from '../../handbook/wave-materials.ts';
import { frictionFactor } from '../../hydraulics/friction-factor.ts';
import { waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { Plan, PointId } from '../../plan/model/plan.ts';
import { calibration } from '../../ram/cycle/calibration.ts';
import { type DriveSize, usualDriveSizes } from '../../ram/cycle/drive-sizes.ts';
import { type SizeRow, sizeAnswer, sizeTable } from '../../ram/cycle/size-table.ts';
import type { CubicMetresPerSecond } from '../../units/quantity.ts';
import { designHeads } from '../model/design-heads.ts';
import { drivePipe, ramSystem } from '../model/ram-behaviour.ts';
import type { Site } from '../site/site.ts';
import { siteOf } from '../site/site.ts';
import { solve } from '../spread/solve.ts';
import { DAY } from '../statistics/estimate.ts';
import { evaluate, type Ground } from './evaluate.ts';
import { type PumpSizes, sheetOfSize, withSize } from './pump-catalogue.ts';

/**
 * Losses of an ordinary ram where the plan does not describe one: waste valve 6, check valve 4 and 3 ms of lag, in the
 * middle of what models of rams are fed with (4 to 10, 3 to 6). Common practice, no source.
 */
const ORDINARY_RAM = { wasteValveLoss: 6, checkValveLoss: 4, checkLag: 0.003 } as const;

/** One bend before the pump. */
const BENDS = 1;

/** Which sizes of ram suit a plan; null until source and pump stand, a delivery line is drawn and the source is read. */
export function pumpSizes(plan: Plan, ground: Ground): PumpSizes | null {
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy);
  const heads = designHeads(site);
  if (system === null || heads === null || system.model.available === null) return null;
  const { spread, layout } = system;
  const limit = spread.likely[layout.shared('supply-limit')] ?? Number.MAX_VALUE;
  const fall = spread.likely[layout.shared('fall')] ?? 0;
  if (fall <= 0) return null;
  const drive = site.arrangement.drive;
  const profile = drive && site.profiles.get(drive.id);
  const ram = plan.pump?.kind === 'ram' ? plan.pump : ORDINARY_RAM;
  const table = sizeTable({
    fall,
    deliveryHead: heads.deliveryHead,
    available: Math.min(spread.likely[layout.shared('for-pump')] ?? 0, limit),
    driveLength: profile ? profile.line.slope : null,
    entranceLoss: fittingLoss('entrance-square', usualDriveSizes[0]?.bore ?? 1),
    bendLoss: BENDS * fittingLoss('elbow-90-long', usualDriveSizes[0]?.bore ?? 1),
    wasteValveLoss: ram.wasteValveLoss,
    checkValveLoss: ram.checkValveLoss,
    checkLag: ram.checkLag,
    yieldFactor: measuredFactor(site),
    sizes: usualDriveSizes,
    ...steelIn(plan),
  });
  const { about } = evaluate(plan, ground).answer.arrives;
  const rows = table.rows.map((row) => withPlanned(row, { plan, ground, about }));
  return { rows, about, answer: table.answer.kind === 'no-pump-needed' ? table.answer : sizeAnswer(rows) };
}

interface Asked {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly about: PointId | null;
}

/** What arrives in a second at the place that the plan is answered for, if the pump of a plan ran. */
function planned({ plan, ground, about }: Asked): CubicMetresPerSecond | null {
  const tank = evaluate(plan, ground).tanks.find(({ id }) => id === about);
  const perDay = tank?.line?.ifRunningPerDay?.likely;
  return perDay === undefined ? null : perDay / DAY;
}

/** A row whose deliveries are those that the plan shows once its size is taken: one number for one thing. */
function withPlanned(row: SizeRow, asked: Asked): SizeRow {
  const of = (count: number) => {
    const sheet = sheetOfSize(row, count);
    return sheet && planned({ ...asked, plan: withSize(asked.plan, sheet) });
  };
  const [one, two] = [row.run && of(1), row.halfRun && of(2)];
  return {
    ...row,
    run: row.run && { ...row.run, delivery: one ?? row.run.delivery },
    halfRun: row.halfRun && { ...row.halfRun, delivery: two == null ? row.halfRun.delivery : two / 2 },
  };
}

/** Measured over modelled efficiency of a ram described by its parts; 1 without a measured run, or where it does not fit the model. */
function measuredFactor(site: Site): number {
  const { pump, waterTemperature } = site.plan;
  const drive = drivePipe(site);
  if (pump?.kind !== 'ram' || pump.measured === null || drive === null) return 1;
  const found = calibration(ramSystem(pump, drive, waterTemperature), pump.valveStroke, pump.measured);
  return found.ok ? found.value.yieldFactor : 1;
}

/** Wave speed and friction of galvanised steel drive pipes in the plan's water. */
function steelIn(plan: Plan) {
  const water = waterAt(plan.waterTemperature);
  const { modulus } = waveMaterial('steel');
  const roughness = roughnessOf('steel-galvanised').value;
  return {
    waveSpeed: ({ bore, wall }: DriveSize) => waveSpeed({ ...water, bore, wall, modulus }),
    darcyFactor: ({ bore }: DriveSize, velocity: number) =>
      frictionFactor({ reynolds: (velocity * bore) / water.viscosity, relativeRoughness: roughness / bore }),
  };
}
