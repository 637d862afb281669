import { movePoint } from '../../plan/edits/edit-points.ts';
import type { PointId, PointRole } from '../../plan/model/plan.ts';
import { type DeviceState, device } from '../state/device-store.ts';
import { terrain } from '../state/store.ts';
import { editOrSay, placePoint } from './edit-actions.ts';

/** As much of the browser's geolocation as is used. */
export type Locator = Pick<Geolocation, 'watchPosition' | 'clearWatch'>;

/** A fix older than this is not wanted, and one that takes longer is not waited for, ms. */
const OLDEST = 5_000;
const LONGEST = 30_000;

const REASONS: Readonly<Record<number, Extract<DeviceState, { kind: 'refused' }>['reason']>> = {
  1: 'denied',
  2: 'unavailable',
  3: 'late',
};

let watching: { readonly locator: Locator; readonly id: number } | null = null;

/** Follows the device from now on. The browser asks the user whether it may. */
export function followDevice(locator: Locator | undefined = globalThis.navigator?.geolocation): void {
  leaveDevice();
  if (!locator) {
    device.value = { kind: 'refused', reason: 'none' };
    return;
  }
  device.value = { kind: 'asking' };
  const id = locator.watchPosition(take, refuse, { enableHighAccuracy: true, maximumAge: OLDEST, timeout: LONGEST });
  watching = { locator, id };
}

export function leaveDevice(): void {
  watching?.locator.clearWatch(watching.id);
  watching = null;
  device.value = { kind: 'off' };
}

/** Places a point where the device is. */
export function placeAtDevice(role: PointRole): void {
  if (device.value.kind === 'shown') placePoint(role, device.value.fix.position);
}

/** Moves a point to where the device is. */
export function moveToDevice(id: PointId): void {
  const now = device.value;
  if (now.kind === 'shown') editOrSay((plan) => movePoint(plan, id, now.fix.position));
}

function take({ coords }: GeolocationPosition): void {
  if (device.value.kind === 'off') return;
  const fix = { position: { lon: coords.longitude, lat: coords.latitude }, accuracy: coords.accuracy };
  const before = device.value.kind === 'shown' ? device.value.ground : null;
  device.value = { kind: 'shown', fix, ground: before };
  void readGround(fix.position);
}

/** The height is the elevation file's: the device's own is far too coarse, and counted from another level. */
async function readGround(position: { readonly lon: number; readonly lat: number }): Promise<void> {
  const opened = terrain.value;
  const [point] = opened === null ? [] : await opened.groundAt([position]).catch(() => []);
  const now = device.value;
  if (now.kind === 'shown' && now.fix.position === position) device.value = { ...now, ground: point?.ground ?? null };
}

/** A place that was found stays when the device loses sight of the sky for a while; it is still being followed. */
function refuse({ code }: GeolocationPositionError): void {
  const lost = device.value.kind === 'shown' && REASONS[code] !== 'denied';
  if (lost || device.value.kind === 'off') return;
  leaveDevice();
  device.value = { kind: 'refused', reason: REASONS[code] ?? 'unavailable' };
}
