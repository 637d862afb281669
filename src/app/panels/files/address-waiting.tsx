import { addressRefusal } from '../../../report/words/refusal-words.ts';
import { shownAddress } from '../../../terrain/bytes/address-name.ts';
import { leaveWaiting, openWaiting } from '../../actions/address-actions.ts';
import { filesByHost, typedAddresses } from '../../client/typed-addresses.ts';
import { waitingAddresses } from '../../state/address-state.ts';
import { terrain } from '../../state/store.ts';

/** Says that the heights of the plan lie at an address, and asks there only when told to. */
export function AddressWaiting() {
  const waiting = waitingAddresses.value;
  if (waiting.length === 0) return null;
  const { files, problems } = typedAddresses(waiting.join('\n'), location.origin);
  const open = terrain.value;
  const hosts = filesByHost(files).map(({ host }) => host);
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
        {open === null
          ? 'Until they are open, nothing is reckoned.'
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
