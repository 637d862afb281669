import './by-address.css';
import { useEffect, useId, useLayoutEffect, useRef } from 'preact/hooks';
import { addressRefusal, networkWords } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';
import type { NamedAddress } from '../../../worker/messages.ts';
import { leaveAddresses, openAddresses, typeAddresses } from '../../actions/address-actions.ts';
import { cancelOpening } from '../../actions/terrain-actions.ts';
import { filesByHost, typedAddresses } from '../../client/typed-addresses.ts';
import { addressDialog } from '../../state/address-state.ts';
import { type FileState, terrainFile } from '../../state/store.ts';

const KILO = 1000;
const MEGA = 1_000_000;

/** How much came over the network, in kB or MB. */
function bytesWords(bytes: number): string {
  return bytes < MEGA ? `${Math.round(bytes / KILO)} kB` : `${(bytes / MEGA).toFixed(1)} MB`;
}

/** Takes the addresses of elevation files and says what is asked from where before anything is. */
export function AddressDialog() {
  const state = addressDialog.value;
  return state === null ? null : <Dialog text={state.text} />;
}

function Dialog({ text }: { readonly text: string }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const { files, problems } = typedAddresses(text, location.origin);
  const state = terrainFile.value;
  const busy = state.kind === 'opening';
  useEffect(() => dialog.current?.showModal(), []);
  // The buttons change with the state; the keyboard must not fall out of the dialog with the one that is gone.
  useLayoutEffect(
    () => dialog.current?.querySelector<HTMLElement>(busy ? '.under-way button' : 'textarea')?.focus(),
    [busy],
  );
  return (
    <dialog ref={dialog} class="by-address" aria-labelledby="address-title" onClose={leaveAddresses}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void openAddresses(text);
        }}
      >
        <h2 id="address-title">Open elevation by address</h2>
        <AddressField text={text} busy={busy} />
        <Asked files={files} />
        <Sentences problems={problems} />
        {state.kind === 'refused' ? <Refused problems={state.problems} /> : null}
        {state.kind === 'opening' ? (
          <UnderWay state={state} />
        ) : (
          <p class="buttons">
            <button type="submit" disabled={files.length === 0 || problems.length > 0}>
              Ask there and open
            </button>
            <button type="button" onClick={leaveAddresses}>
              Cancel
            </button>
          </p>
        )}
      </form>
    </dialog>
  );
}

function AddressField({ text, busy }: { readonly text: string; readonly busy: boolean }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>Addresses of GeoTIFF files, one a line</label>
      <textarea
        id={id}
        rows={3}
        spellcheck={false}
        autocapitalize="off"
        autocomplete="off"
        placeholder="https://"
        readOnly={busy}
        value={text}
        onInput={({ currentTarget }) => typeAddresses(currentTarget.value)}
      />
    </div>
  );
}

/** What would be asked from where. */
function Asked({ files }: { readonly files: readonly NamedAddress[] }) {
  return (
    <div class="note">
      {filesByHost(files).map(({ host, names, network }) => (
        <p key={host}>
          <strong>{host}</strong>
          {network === null ? '' : ` (${networkWords(network)})`} will be asked for parts of {names.join(', ')}: its
          directory, and the heights that map and lines need.
        </p>
      ))}
      <p>
        Nothing is asked before you press the button. A server that is asked sees this machine’s network address and
        which parts of the file are read; the plan is not sent. The plan keeps the address, with a key if one is in it.
      </p>
    </div>
  );
}

function Sentences({ problems }: { readonly problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <ul class="problems problem">
      {problems.map((problem) => (
        <li key={`${problem.code} ${problem.path}`} data-code={problem.code}>
          {addressRefusal(problem)}
        </li>
      ))}
    </ul>
  );
}

function Refused({ problems }: { readonly problems: readonly Problem[] }) {
  return (
    <div role="alert" data-state="address-refused">
      <Sentences problems={problems} />
      <p class="note">The elevation on the page and the plan are as they were.</p>
    </div>
  );
}

function UnderWay({ state }: { readonly state: Extract<FileState, { kind: 'opening' }> }) {
  const { progress, files } = state;
  const known = progress !== null && progress.of > 1;
  const come = progress?.bytes === undefined ? '' : ` ${bytesWords(progress.bytes)} so far.`;
  return (
    <div class="under-way" data-state="address-opening">
      <p role="status">
        Reading {files.map(({ name }) => name).join(', ')}…{come}
      </p>
      <progress aria-label="Reading the elevation" {...(known ? { value: progress.done, max: progress.of } : {})} />
      <button type="button" onClick={() => cancelOpening(state)}>
        Cancel
      </button>
    </div>
  );
}
