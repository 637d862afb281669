import * as z from 'zod/mini';
import type { Position } from '../../geodesy/position.ts';
import { asIs } from './scale.ts';

/**
 * An address of map tiles: http or https, with a place for zoom, column and row each; rows counted from the south are `{-y}`.
 * No other placeholder, no name or password, no quotes, brackets or spaces.
 */
export const TILE_ADDRESS =
  /^(?=.*\{z\})(?=.*\{x\})(?=.*\{-?y\})https?:\/\/[^\s"'<>{}@\\/?#]+\/(?:[^\s"'<>{}\\]|\{(?:z|x|-?y)\})+$/;

// Compiled checks need eval, which the page's security policy forbids; asking for it would already be reported.
z.config({ jitless: true });

/** A number from `least` to `most`, both included. */
export const within = (least: number, most: number) => z.number().check(z.minimum(least), z.maximum(most));
/** A number above zero, up to `most`. */
export const positive = (most: number) => z.number().check(z.gt(0), z.maximum(most));
/** A whole number from `least` to `most`. */
export const whole = (least: number, most: number) => z.int().check(z.minimum(least), z.maximum(most));

/** Names points, routes and pipes: small letters, digits and hyphens. */
export const identifier = z.string().check(z.regex(/^[a-z][a-z0-9-]{0,63}$/));
/** Names a row of the handbook. */
export const rowName = z.string().check(z.regex(/^[a-z0-9][a-z0-9.-]{0,63}$/));
// Spelt out rather than \p{Cc}, so that the pattern means the same to any reader of the JSON Schema.
const control = String.raw`\u0000-\u001f\u007f-\u009f`;
const oneLine = new RegExp(String.raw`^[^${control}\u2028\u2029]*$`);
const someLines = new RegExp(String.raw`^[^${control}]*(?:[\n\t][^${control}]*)*$`);
/** One line of text; whatever looks like markup in it is text too. */
export const line = z.string().check(z.maxLength(200), z.regex(oneLine));
/** Name of a file, or the address where it lies. */
export const fileName = z.string().check(z.maxLength(2000), z.regex(oneLine));
/** Some lines of text. */
export const prose = z.string().check(z.maxLength(4000), z.regex(someLines));
/** Longitude and latitude, and nothing else: heights come from the terrain or from a measurement. */
export const coordinates = z.tuple([within(-180, 180), within(-90, 90)]);

/** Upwards from the ground, m. */
export const heightAboveGround = within(-100, 100);
export const volume_L = within(0, 10_000_000);
export const flow_L_per_min = within(0, 1_000_000);
export const bore_mm = positive(5000);
export const share = within(0, 1);
/** An efficiency: above 0, at most 1. */
export const efficiency = positive(1);

/** One part of a plan at the file's edge: what the file may say, and the exact step each way. */
export interface PartCodec<Part, File> {
  readonly schema: z.ZodMiniType<File>;
  toFile(part: Part): File;
  fromFile(file: File): Part;
}

/** The file's side of a part, from its schema. */
export type FileOf<Schema extends z.ZodMiniType> = z.output<Schema>;

export type Coordinates = [number, number];

export function toCoordinates({ lon, lat }: Position): Coordinates {
  return [asIs.toFile(lon), asIs.toFile(lat)];
}

export function fromCoordinates([lon, lat]: Coordinates): Position {
  return { lon: asIs.fromFile(lon), lat: asIs.fromFile(lat) };
}
