import { accuracyFor } from '../../../evaluation/site/heights.ts';
import {
  EXPORT_FORMATS,
  exportedFile,
  exportedProfile,
  type TableFormat,
} from '../../../report/exchange/exported-file.ts';
import { waterWays, wayFor } from '../../../report/tables/water-ways.ts';
import { tellSheetSeen } from '../../actions/demo-actions.ts';
import { download } from '../../actions/plan-file-actions.ts';
import { announcement, chosenWay, evaluation, grounded, plan, selection, terrain } from '../../state/store.ts';

/** Whether a form of the plan says something now: some do so only once there is ground. */
export function canTakeAlong(format: TableFormat): boolean {
  return !EXPORT_FORMATS[format].needsGround || evaluation.value !== null;
}

/** Hands the plan to the browser in another form. */
export function takeAlong(format: TableFormat): void {
  const file = exportedFile(format, { plan: plan.value, evaluation: evaluation.value, units: plan.value.units });
  download(file.text, file);
}

/** The profile that is shown, as a file; null while there is none. */
function shownProfile() {
  const [known, about] = [grounded.value, terrain.value?.about];
  if (known === null || about === undefined) return null;
  const way = wayFor(known.plan, { chosen: chosenWay.value, lookedAt: selection.value });
  if (way === null) return null;
  const source = {
    plan: known.plan,
    evaluation: evaluation.value,
    points: known.ground.points,
    lines: known.ground.lines,
    accuracy: accuracyFor(known.plan, about),
  };
  return exportedProfile(source, way, known.plan.units);
}

export function canTakeProfile(): boolean {
  return grounded.value !== null && waterWays(grounded.value.plan).length > 0;
}

/** Hands the profile that is shown to the browser as a picture file. */
export function takeProfile(): void {
  const file = shownProfile();
  if (file !== null) download(file.text, file);
}

/** Lays a sheet over the page, ready to print; what draws it is loaded only now. */
export async function printSheet(kind: 'owner' | 'engineer' | 'visit' | 'comparison' | 'pump'): Promise<void> {
  const { openPrintView } = await import('./open-print-view.ts');
  if (await openPrintView(kind)) tellSheetSeen();
  else announcement.value = 'Not printed: the plans are still being worked out';
}
