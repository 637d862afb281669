import { writeQuantity } from '../../../units/write-quantity.ts';
import { newPlan } from '../../actions/plan-file-actions.ts';
import {
  isAtHand,
  leaveStrayPicture,
  openAtHand,
  openPictureFiles,
  openTerrainFiles,
  takeStrayPicture,
  useOpenGround,
} from '../../actions/terrain-actions.ts';
import { fitPlan, hideMatch } from '../../actions/view-actions.ts';
import { openedFrom } from '../../state/address-state.ts';
import { hiddenMatch, otherGround, planElsewhere, strayPicture } from '../../state/ground-match.ts';
import { plan, terrainFile } from '../../state/store.ts';
import { askThen } from '../fields/ask-then.ts';
import { FileButton } from '../fields/file-button.tsx';
import { Notice } from '../fields/notice.tsx';

/** Plan, ground and picture that do not belong together are never put together in silence. */
export function GroundNotices() {
  if (terrainFile.value.kind !== 'idle') return null;
  return (
    <>
      <PlanElsewhere />
      <OtherGround />
      <StrayPicture />
    </>
  );
}

const listed = (names: readonly string[]) => names.join(', ');

function PlanElsewhere() {
  const off = planElsewhere.value;
  const key = `elsewhere ${openedFrom.value.join(' ')} ${plan.value.name}`;
  if (off === null || hiddenMatch.value === key) return null;
  return (
    <Notice
      kind="plan-elsewhere"
      buttons={[
        ['Show the plan on the map', fitPlan],
        ['Keep both', () => hideMatch(key)],
        ['Start a new plan on this ground', () => void askThen(newPlan)],
      ]}
    >
      The plan lies {writeQuantity(off, 'length', plan.value.units)} away from {listed(openedFrom.value)}: no heights
      for any of its points. Open the elevation file of its own place, or start a new plan here.
    </Notice>
  );
}

function OtherGround() {
  const named = otherGround.value;
  const key = `other ${openedFrom.value.join(' ')} ${named?.join(' ')}`;
  if (named === null || planElsewhere.value !== null || hiddenMatch.value === key) return null;
  const own = listed(named);
  return (
    <Notice
      kind="other-ground"
      buttons={[
        ...(isAtHand(named) ? ([[`Open ${own} again`, () => void openAtHand(named)]] as const) : []),
        [`Use ${listed(openedFrom.value)} for it`, useOpenGround],
      ]}
      beside={
        isAtHand(named) ? null : (
          <FileButton accept=".tif,.tiff,.asc" multiple onFiles={(files) => void openTerrainFiles(files)}>
            Choose {own}…
          </FileButton>
        )
      }
    >
      This plan was made on {own}. Its numbers now come from {listed(openedFrom.value)}.
    </Notice>
  );
}

function StrayPicture() {
  const stray = strayPicture.value;
  if (stray === null) return null;
  const name = stray.files[0]?.name ?? 'The picture';
  return (
    <Notice
      kind="stray-picture"
      buttons={[
        ['Say again where it lies', () => void openPictureFiles(stray.files)],
        ['Close it', leaveStrayPicture],
        ['Show it all the same', takeStrayPicture],
      ]}
    >
      {name} lies {writeQuantity(stray.off, 'length', plan.value.units)} away from the ground that is open; it may be in
      another zone. What was shown stays.
    </Notice>
  );
}
