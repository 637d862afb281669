import { afterEach, expect, it } from 'vitest';
import { followDevice, type Locator, leaveDevice, placeAtDevice } from '../../src/app/actions/device-actions.ts';
import { device } from '../../src/app/state/device-store.ts';
import { deviceFeatures } from '../../src/app/state/map-view-props.ts';
import { plan } from '../../src/app/state/store.ts';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import { deviceLines } from '../../src/report/words/pointer-words.ts';

class HandLocator implements Locator {
  found: PositionCallback = () => {};
  refused: PositionErrorCallback = () => {};
  readonly cleared: number[] = [];

  watchPosition(found: PositionCallback, refused?: PositionErrorCallback | null): number {
    this.found = found;
    this.refused = refused ?? this.refused;
    return 5;
  }

  clearWatch(id: number): void {
    this.cleared.push(id);
  }
}

/** A fix as a device gives it, with the height above the ellipsoid that nothing may use. */
function fix(longitude: number, latitude: number, accuracy: number): GeolocationPosition {
  const coords = { longitude, latitude, accuracy, altitude: 512, altitudeAccuracy: 20, heading: null, speed: null };
  return { coords: { ...coords, toJSON: () => coords }, timestamp: 0, toJSON: () => ({}) };
}

const denied = { code: 1, message: '', PERMISSION_DENIED: 1, POSITION_UNAVAILABLE: 2, TIMEOUT: 3 } as const;

afterEach(leaveDevice);

it('shows the device only from when the user asks until the user ends it', () => {
  const locator = new HandLocator();
  expect(device.value).toEqual({ kind: 'off' });
  followDevice(locator);
  expect(device.value).toEqual({ kind: 'asking' });
  locator.found(fix(-39.997, 38.0017, 8));
  expect(device.value).toMatchObject({ kind: 'shown', fix: { position: { lon: -39.997, lat: 38.0017 }, accuracy: 8 } });
  leaveDevice();
  locator.found(fix(-39.9, 38, 8));
  expect(device.value).toEqual({ kind: 'off' });
  expect(locator.cleared).toEqual([5]);
});

it('keeps the last place while the device finds none, until it may not be asked any more', () => {
  const locator = new HandLocator();
  followDevice(locator);
  locator.found(fix(-39.997, 38.0017, 8));
  locator.refused({ ...denied, code: 3 });
  expect(device.value.kind).toBe('shown');
  locator.refused(denied);
  expect(device.value).toEqual({ kind: 'refused', reason: 'denied' });
});

it('never takes the height of the device', () => {
  const locator = new HandLocator();
  followDevice(locator);
  locator.found(fix(-39.997, 38.0017, 8));
  expect(device.value).toMatchObject({ ground: null });
  placeAtDevice('tank');
  const placed = plan.value.points.at(-1);
  expect(placed?.position).toEqual({ lon: -39.997, lat: 38.0017 });
  expect(JSON.stringify(plan.value)).not.toContain('512');
});

it('says why there is no position, and that a browser offers none', () => {
  const locator = new HandLocator();
  followDevice(locator);
  locator.refused(denied);
  expect(device.value).toEqual({ kind: 'refused', reason: 'denied' });
  expect(locator.cleared).toEqual([5]);
  // A test has no navigator.geolocation, as a page from an insecure address has none.
  followDevice();
  expect(device.value).toEqual({ kind: 'refused', reason: 'none' });
});

it('draws its ring as far out as the device says it may be off', () => {
  const position = { lon: -39.997, lat: 38.0017 };
  const [ring] = deviceFeatures({ position, accuracy: 25 }).features;
  const corners = ring?.geometry.type === 'Polygon' ? (ring.geometry.coordinates[0] ?? []) : [];
  expect(corners).toHaveLength(49);
  for (const [lon = 0, lat = 0] of corners) expect(distanceBetween(position, { lon, lat })).toBeCloseTo(25, 6);
});

it('tells place, doubt and the ground of the elevation file in the shown units', () => {
  const where = { position: { lon: -39.99742, lat: 38.00172 }, accuracy: 8, ground: 167.7 };
  expect(deviceLines({ ...where, units: 'metric' })).toEqual([
    '38.00172° N, 39.99742° W',
    'within 8.0\u202fm, the device says',
    'ground 167.70\u202fm, from the elevation file',
  ]);
  expect(deviceLines({ ...where, ground: null, units: 'us' })).toHaveLength(2);
});
