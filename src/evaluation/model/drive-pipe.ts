import { fittingLoss } from '../../handbook/fitting-loss.ts';
import type { Site } from '../site/site.ts';
import type { DrivePipe } from './ram-behaviour.ts';

/** The drawn drive pipe with its fittings' losses; null until it is drawn on known ground. */
export function drivePipe(site: Site): DrivePipe | null {
  const { drive } = site.arrangement;
  const pipe = drive && site.pipes.get(drive.pipe);
  const profile = drive && site.profiles.get(drive.id);
  if (!drive || !pipe || !profile) return null;
  const bendLoss = drive.fittings.reduce((sum, f) => sum + f.count * fittingLoss(f.fitting, pipe.bore), 0);
  return { pipe, length: profile.line.slope, bendLoss };
}
