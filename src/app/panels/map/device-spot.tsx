import { DEVICE_REFUSALS, deviceLines } from '../../../report/words/pointer-words.ts';
import { followDevice, leaveDevice } from '../../actions/device-actions.ts';
import { device } from '../../state/device-store.ts';
import { plan } from '../../state/store.ts';

/** In the corner that a thumb reaches: shows where the device is, once the user asks for it. */
export function DeviceSpot() {
  const now = device.value;
  const on = now.kind === 'asking' || now.kind === 'shown';
  return (
    <div class="device-spot">
      {now.kind === 'off' ? null : <Found />}
      <button type="button" aria-pressed={on} onClick={() => (on ? leaveDevice() : followDevice())}>
        <span class="device-dot" aria-hidden="true" /> Where I am
      </button>
    </div>
  );
}

function Found() {
  const now = device.value;
  if (now.kind === 'refused') {
    return (
      <div class="device-words" role="alert">
        <p>{DEVICE_REFUSALS[now.reason]}</p>
        <button type="button" class="quiet" onClick={leaveDevice}>
          All right
        </button>
      </div>
    );
  }
  const lines =
    now.kind === 'shown'
      ? deviceLines({ ...now.fix, ground: now.ground, units: plan.value.units })
      : ['The device is looking for its position…'];
  return (
    <div class="device-words" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
