import { addressRefusal, networkWords } from '../../../report/words/refusal-words.ts';
import { shownAddress } from '../../../terrain/bytes/address-name.ts';
import { askForAddress, leaveWaiting, openWaiting } from '../../actions/address-actions.ts';
import {
  cancelOpening,
  hidePictureRefusal,
  hideTerrainRefusal,
  openTerrainFiles,
} from '../../actions/terrain-actions.ts';
import { filesByHost, typedAddresses } from '../../client/typed-addresses.ts';
import { addressDialog, waitingAddresses } from '../../state/address-state.ts';
import { type FileState, picture, pictureFile, terrain, terrainFile } from '../../state/store.ts';
import { FileButton } from '../fields/file-button.tsx';
import { ProblemList } from '../fields/problem-list.tsx';

/** What is going on with the files of the map: none yet, being opened, or refused. */
export function FileStates() {
  const idle = terrainFile.value.kind === 'idle' && addressDialog.value === null;
  const waits = waitingAddresses.value.length > 0;
  return (
    <div class="file-states">
      {idle && waits ? <AddressWaiting /> : null}
      {idle && !waits && terrain.value === null ? <NoElevation /> : null}
      {addressDialog.value === null ? (
        <OneFile
          state={terrainFile.value}
          what="elevation"
          kept={terrain.value?.about.files ?? []}
          onHide={hideTerrainRefusal}
        />
      ) : null}
      <OneFile
        state={pictureFile.value}
        what="picture"
        kept={picture.value === null ? [] : [picture.value.about.file]}
        onHide={hidePictureRefusal}
      />
    </div>
  );
}

function NoElevation() {
  return (
    <section class="state-card first" aria-label="No elevation yet">
      <h2>Bring the shape of the ground</h2>
      <p>
        Drop an elevation file (a DEM as GeoTIFF) anywhere on this page, or choose one. It stays on this machine:
        nothing is sent anywhere.
      </p>
      <p class="buttons">
        <FileButton accept=".tif,.tiff,.asc" multiple onFiles={(files) => void openTerrainFiles(files)}>
          Choose an elevation file…
        </FileButton>
        <button type="button" onClick={askForAddress}>
          Open elevation by address…
        </button>
      </p>
      <p class="note">
        Bare-ground models (DTM) at 1 m are best. A fall of a man’s height cannot be judged from a 30 m model; the
        planner says when that is so.
      </p>
    </section>
  );
}

interface OneFileProps {
  readonly state: FileState;
  readonly what: 'elevation' | 'picture';
  readonly kept: readonly string[];
  readonly onHide: () => void;
}

function OneFile({ state, what, kept, onHide }: OneFileProps) {
  if (state.kind === 'opening') return <Opening state={state} what={what} />;
  if (state.kind !== 'refused') return null;
  return (
    <section class="state-card refused" role="alert" data-state={`${what}-refused`}>
      <h2>
        {state.names.join(', ')}{' '}
        {state.problems.some(({ code }) => code === 'picture-half')
          ? 'waits for its other half'
          : `cannot be used as ${what}`}
      </h2>
      <ProblemList problems={state.problems} file={state.names[0] ?? ''} />
      <p>
        {kept.length > 0 ? `${kept.join(', ')} stays in use.` : `There is no ${what} yet.`} The plan is as it was.{' '}
        {what === 'elevation'
          ? 'Export the file again as a plain GeoTIFF with one band of heights, or bring another one.'
          : 'Open an aerial picture as a GeoTIFF, or a picture together with its world file.'}
      </p>
      <button type="button" onClick={onHide}>
        OK
      </button>
    </section>
  );
}

function Opening({ state, what }: { readonly state: Extract<FileState, { kind: 'opening' }>; readonly what: string }) {
  const { progress, files } = state;
  const known = progress !== null && progress.of > 0;
  return (
    <section class="state-card opening" data-state={`${what}-opening`}>
      <p role="status">Reading {files.map((file) => file.name).join(', ')}…</p>
      <progress aria-label={`Reading the ${what}`} {...(known ? { value: progress.done, max: progress.of } : {})} />
      <button type="button" onClick={() => cancelOpening(state)}>
        Cancel
      </button>
    </section>
  );
}

/** Says that the heights of the plan lie at an address, and asks there only when told to. */
function AddressWaiting() {
  const waiting = waitingAddresses.value;
  if (waiting.length === 0) return null;
  const { files, problems } = typedAddresses(waiting.join('\n'), location.origin);
  const open = terrain.value;
  const asked = filesByHost(files);
  const hosts = asked.map(({ host }) => host);
  return (
    <section class="state-card by-address" aria-label="Elevation at an address" data-state="address-waiting">
      <h2>The heights of this plan lie at an address</h2>
      {waiting.map((address) => (
        <p key={address} class="address">
          {shownAddress(address)}
        </p>
      ))}
      {problems.map((problem) => (
        <p key={problem.path} class="problem">
          {addressRefusal(problem)}
        </p>
      ))}
      <p class="note">
        Nothing has been asked there.{' '}
        {asked.map(({ host, network }) => (network === null ? '' : `${host} is ${networkWords(network)}. `))}
        {open === null
          ? 'Until they are open, nothing can be worked out.'
          : `Until they are open, the numbers are those on ${open.about.files.join(', ')}.`}
      </p>
      <p class="buttons">
        {problems.length > 0 ? null : (
          <button type="button" onClick={openWaiting}>
            Ask {hosts.join(', ')} and open
          </button>
        )}
        <button type="button" onClick={leaveWaiting}>
          Not now
        </button>
      </p>
    </section>
  );
}
