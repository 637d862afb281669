import { materialNeeds } from '../../evaluation/evaluate/materials.ts';
import { type PumpSizeRow, sheetOfSize, withSize } from '../../evaluation/evaluate/pump-catalogue.ts';
import { standpipeSpot } from '../../evaluation/evaluate/standpipe-spot.ts';
import { setRoutePipe } from '../../plan/edits/edit-routes.ts';
import { moveStandpipeAlong } from '../../plan/edits/edit-standpipe.ts';
import { finishEdit } from '../../plan/edits/finish-edit.ts';
import type { PointId, RouteId } from '../../plan/model/plan.ts';
import type { CandidateOrder } from '../../report/tables/candidates.ts';
import { materialsCsv } from '../../report/tables/materials-csv.ts';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import { broad, candidateOrder, type JobName, job, onGround, overlaid, sizedRoute } from '../state/jobs-store.ts';
import { evaluation } from '../state/store.ts';
import { editOrSay } from './edit-actions.ts';
import { download } from './plan-file-actions.ts';

export function showJob(name: JobName): void {
  job.value = name;
}

export function showBroad(wide: boolean): void {
  broad.value = wide;
}

export function orderCandidates(order: CandidateOrder): void {
  candidateOrder.value = order;
}

export function overlayProfiles(laid: boolean): void {
  overlaid.value = laid;
}

export function lookThroughSizes(route: RouteId): void {
  sizedRoute.value = route;
}

export function layIn(route: RouteId, row: string): void {
  editOrSay((plan) => setRoutePipe(plan, route, { kind: 'row', row }));
}

/** Takes a size, for one pump or for several side by side: its sheet, and a steel drive pipe of its bore. */
export function takeSize(row: PumpSizeRow, count = 1): void {
  const sheet = sheetOfSize(row, count);
  if (sheet === null) return;
  editOrSay((plan) => finishEdit(plan, withSize(plan, sheet), { code: 'set-pump', name: '' }));
}

/** Moves the standpipe along the drawn way to where the drive pipe has a length. */
export function standAt(id: PointId, driveLength: number): void {
  const known = onGround.value;
  const spot = known && standpipeSpot(known.plan, known.ground, driveLength);
  if (spot !== null) editOrSay((plan) => moveStandpipeAlong(plan, id, spot));
}

/** Hands what has to be bought to the browser as a table to keep. */
export function saveBill(): void {
  const known = onGround.value;
  const result = evaluation.value;
  if (known === null || result === null) return;
  const { plan } = known;
  const text = materialsCsv(materialNeeds(plan, result), plan, plan.units);
  download(text, { name: `${safeFileName(plan.name, 'plan')}-pipe.csv`, type: 'text/csv' });
}
