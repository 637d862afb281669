import { signal } from '@preact/signals';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';

/** Where the device says it is. */
export interface DeviceFix {
  readonly position: Position;
  /** Radius that holds the true place 95 times of a hundred, as the device judges it (W3C Geolocation), m. */
  readonly accuracy: Metres;
}

export type DeviceState =
  | { readonly kind: 'off' }
  | { readonly kind: 'asking' }
  | { readonly kind: 'shown'; readonly fix: DeviceFix; readonly ground: Metres | null }
  | { readonly kind: 'refused'; readonly reason: 'denied' | 'unavailable' | 'late' | 'none' };

/** Off until the user asks; never part of the plan and never kept. */
export const device = signal<DeviceState>({ kind: 'off' });
