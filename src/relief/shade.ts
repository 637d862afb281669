import { DEGREE } from '../geodesy/wgs84.ts';
import type { Degrees, Ratio } from '../units/quantity.ts';

/** A light far away: where it stands, clockwise from north, and how high above the horizon. */
export interface Light {
  readonly azimuth: Degrees;
  readonly altitude: Degrees;
}

/** Unit vector towards a light: east, north, up. */
export interface LightVector {
  readonly east: number;
  readonly north: number;
  readonly up: number;
}

export function lightVector(light: Light): LightVector {
  const flat = Math.cos(light.altitude * DEGREE);
  return {
    east: flat * Math.sin(light.azimuth * DEGREE),
    north: flat * Math.cos(light.azimuth * DEGREE),
    up: Math.sin(light.altitude * DEGREE),
  };
}

/**
 * Brightness of a slope under one light, 0 (no light falls on it) to 1 (it faces the light).
 *
 * shade = max(0, (−p·east − q·north + up) / √(1 + p² + q²)); p, q rise over run towards east and north.
 * Source: Horn, Hill Shading and the Reflectance Map, Proceedings of the IEEE 69(1), 1981, Lambertian surface.
 */
export function shade(p: Ratio, q: Ratio, light: LightVector): Ratio {
  return facing(p, q, light) / steepness(p, q);
}

/** Numerator of `shade`: a slope's normal, not of unit length, along a light. */
export function facing(p: Ratio, q: Ratio, light: LightVector): Ratio {
  return Math.max(0, light.up - p * light.east - q * light.north);
}

/** Denominator of `shade`, the same under every light: length along the slope over its run. */
export function steepness(p: Ratio, q: Ratio): Ratio {
  return Math.sqrt(1 + p * p + q * q);
}
