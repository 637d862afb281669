import demUrl from '../../data/demo/dem.tif?url';
import pictureUrl from '../../data/demo/picture.tif?url';
import planUrl from '../../data/demo/plan.geojson?url';
import { openPlanFile } from './actions/plan-file-actions.ts';
import { openPictureFiles, openTerrainFiles } from './actions/terrain-actions.ts';
import { planFile } from './state/store.ts';

/** Opens the invented valley that the planner brings along: its plan, its elevation and its picture. */
export async function openDemo(): Promise<void> {
  try {
    await openPlanFile(await fetched(planUrl, 'plan.geojson'), { isDemo: true });
    const [dem, picture] = await Promise.all([fetched(demUrl, 'dem.tif'), fetched(pictureUrl, 'picture.tif')]);
    await Promise.all([openTerrainFiles([dem]), openPictureFiles([picture])]);
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    const problem = { code: 'demo-unreachable', path: '', found, expected: 'the demo valley beside the page' };
    planFile.value = { kind: 'refused', names: ['The demo valley'], problems: [problem] };
  }
}

async function fetched(address: string, name: string): Promise<File> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`answer ${answer.status} for ${name}`);
  return new File([await answer.blob()], name);
}
