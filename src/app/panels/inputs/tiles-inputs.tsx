import './tiles.css';
import { addressRefusal, networkWords } from '../../../report/words/refusal-words.ts';
import { networkOf } from '../../../terrain/bytes/address-network.ts';
import {
  switchTiles,
  tilesFailure,
  tilesProblems,
  typeTilesAddress,
  typeTilesAttribution,
} from '../../actions/tiles-actions.ts';
import { hostOf } from '../../client/tile-failure.ts';
import { plan } from '../../state/store.ts';
import { shownAddress } from '../../state/tiles-state.ts';
import { TextField } from '../fields/text-field.tsx';

/** Where map tiles come from, whose they are, and whether they are asked for. */
export function TilesInputs() {
  const tiles = plan.value.mapTiles;
  return (
    <div class="tiles-inputs">
      <TextField
        label="Address of the tiles, with {z}, {x} and {y} (or {-y})"
        value={tiles?.address ?? ''}
        onValue={typeTilesAddress}
      />
      {tiles === null ? (
        <p class="note">None. The planner brings no map: type the address of tiles that you may use.</p>
      ) : (
        <Known address={tiles.address} attribution={tiles.attribution} />
      )}
    </div>
  );
}

function Known({ address, attribution }: { readonly address: string; readonly attribution: string }) {
  return (
    <>
      <TextField label="Attribution that is shown with them" value={attribution} onValue={typeTilesAttribution} />
      <TilesSwitch />
      {tilesProblems.value.map((problem) => (
        <p key={problem.code} class="problem" data-code={problem.code}>
          {addressRefusal(problem)}
        </p>
      ))}
      <p role="status" class="problem" data-state="tiles-failure">
        {tilesFailure.value}
      </p>
      <p class="note">
        Nothing is asked before you switch them on, and they are off whenever a plan is opened. Then {hostOf(address)}
        {ownNetworkNote(address)} sees this machine’s network address and which part of the map you look at; the plan is
        not sent. The plan keeps the address, with a key if one is in it.
      </p>
    </>
  );
}

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

/** Says so where tiles come from this machine or its own network. */
function ownNetworkNote(address: string): string {
  const network = URL.canParse(address) ? networkOf(new URL(address).hostname) : null;
  return network === null ? '' : ` (${networkWords(network)})`;
}
