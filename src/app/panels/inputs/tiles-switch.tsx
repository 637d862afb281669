import { switchTiles, tilesProblems } from '../../actions/tiles-actions.ts';
import { plan } from '../../state/store.ts';
import { shownAddress } from '../../state/tiles-state.ts';

/** Switches the plan's map tiles on; there is none without an address. */
export function TilesSwitch() {
  if (plan.value.mapTiles === null) return null;
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={shownAddress.value !== null}
        disabled={tilesProblems.value.length > 0}
        onChange={(event) => switchTiles(event.currentTarget.checked)}
      />
      Map tiles
    </label>
  );
}
