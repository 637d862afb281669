import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { roughnessOf } from '../../handbook/roughness.ts';
import { waveMaterial } from '../../handbook/wave-materials.ts';
import { frictionFactor } from '../../hydraulics/friction-factor.ts';
import { waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { calibration } from '../../ram/cycle/calibration.ts';
import { type DriveSize, usualDriveSizes } from '../../ram/cycle/drive-sizes.ts';
import { type SizeTable, sizeTable } from '../../ram/cycle/size-table.ts';
import { designHeads } from '../model/design-heads.ts';
import { drivePipe, ramSystem } from '../model/ram-behaviour.ts';
import type { Site } from '../site/site.ts';
import { siteOf } from '../site/site.ts';
import { solve } from '../spread/solve.ts';
import type { Ground } from './evaluate.ts';

/**
 * Losses of an ordinary ram where the plan does not describe one: waste valve 6, check valve 4 and 3 ms of lag, in the
 * middle of what models of rams are fed with (4 to 10, 3 to 6). Common practice, no source.
 */
const ORDINARY_RAM = { wasteValveLoss: 6, checkValveLoss: 4, checkLag: 0.003 } as const;

/** One bend before the pump. */
const BENDS = 1;

/** Which sizes of ram suit a plan; null until source and pump stand, a delivery line is drawn and the source is read. */
export function pumpSizes(plan: Plan, ground: Ground): SizeTable | null {
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
  return sizeTable({
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
