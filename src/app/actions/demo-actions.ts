import demUrl from '../../../data/demo/dem.tif?url';
import pictureUrl from '../../../data/demo/picture.tif?url';
import planUrl from '../../../data/demo/plan.geojson?url';
import { openPlanFile } from './plan-file-actions.ts';
import { openPictureFiles, openTerrainFiles } from './terrain-actions.ts';

/** Opens the invented valley that the planner brings along: its plan, its elevation and its picture. */
export async function openDemo(): Promise<void> {
  await openPlanFile(await fetched(planUrl, 'plan.geojson'), { isDemo: true });
  await Promise.all([
    openTerrainFiles([await fetched(demUrl, 'dem.tif')]),
    openPictureFiles([await fetched(pictureUrl, 'picture.tif')]),
  ]);
}

async function fetched(address: string, name: string): Promise<File> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`found ${answer.status} for the demo's ${name}, expected 200`);
  return new File([await answer.blob()], name);
}
