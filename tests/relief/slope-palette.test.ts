import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { RELIEF_PALETTES, type Rgb } from '../../src/relief/tiles/relief-palette.ts';
import { SLOPE_COVER, SLOPE_EDGES, SLOPE_PALETTES } from '../../src/relief/tiles/slope-palette.ts';

type Matrix = readonly (readonly [number, number, number])[];

/**
 * How colours look without one kind of cone, in linear RGB. Source: Machado, Oliveira and Fernandes, A Physiologically-based
 * Model for Simulation of Color Vision Deficiency, IEEE TVCG 15(6), 2009, severity 1.0 (from memory).
 */
const EYES: Readonly<Record<string, Matrix>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const linear = (value: number) =>
  value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4;
const dot = (row: readonly number[], values: readonly number[]) =>
  row.reduce((sum, each, at) => sum + each * (values[at] ?? 0), 0);
/** sRGB to XYZ over the white of D65: IEC 61966-2-1, 1999. */
const TO_XYZ: Matrix = [
  [0.4124564 / 0.95047, 0.3575761 / 0.95047, 0.1804375 / 0.95047],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339 / 1.08883, 0.119192 / 1.08883, 0.9503041 / 1.08883],
];

/** L*, a*, b*: CIE 15:2004, section 8.2.1. */
function lab(colour: Rgb, eyes: Matrix): readonly [number, number, number] {
  const seen = eyes.map((row) => Math.min(1, Math.max(0, dot(row, colour.map(linear)))));
  const [x = 0, y = 0, z = 0] = TO_XYZ.map((row) => dot(row, seen)).map((t) =>
    t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116,
  );
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Difference of two colours: CIE 1976. About 2.3 is just noticeable. */
const apart = (one: readonly number[], other: readonly number[]) =>
  Math.hypot(...one.map((value, at) => value - (other[at] ?? 0)));

const mix = (over: Rgb, under: Rgb, share: number): Rgb =>
  [0, 1, 2].map((at) => (over[at] ?? 0) * share + (under[at] ?? 0) * (1 - share)) as unknown as Rgb;

/** The paper of the map, as the style sheet has it. */
const PAPER: Readonly<Record<'light' | 'dark', Rgb>> = { light: [239, 235, 224], dark: [16, 22, 26] };

/** What can lie beneath: every tint of the relief in its deepest shadow, its brightest light and between, at any strength. */
function grounds(theme: 'light' | 'dark'): readonly Rgb[] {
  const { tint, shadow, light, shadowPull, lightPull } = RELIEF_PALETTES[theme];
  const shaded = (tint ?? []).flatMap((base) =>
    [0, 0.5, 1].flatMap((share) => [mix(shadow, base, shadowPull * share), mix(light, base, lightPull * share)]),
  );
  return shaded.flatMap((base) => [0, 0.5, 1].map((strength) => mix(base, PAPER[theme], strength)));
}

const guide = readFileSync(new URL('../../docs/design.md', import.meta.url), 'utf8');

const cases = (['light', 'dark'] as const).flatMap((theme) => Object.keys(EYES).map((eyes) => [theme, eyes] as const));

describe('the slope colours', () => {
  test.each(cases)('on a %s map are told apart by eyes with %s', (theme, eyes) => {
    const matrix = EYES[eyes] ?? [];
    const legend = SLOPE_PALETTES[theme].map((colour) =>
      lab(colour ? mix(colour, PAPER[theme], SLOPE_COVER) : PAPER[theme], matrix),
    );
    for (const [at, colour] of legend.slice(1).entries()) expect(apart(colour, legend[at] ?? [])).toBeGreaterThan(20);
  });

  test.each(cases)('on a %s map stay nearest to their own in the legend under any hillshade, for %s', (theme, eyes) => {
    const matrix = EYES[eyes] ?? [];
    const palette = SLOPE_PALETTES[theme];
    const legend = palette.map((colour) => lab(colour ? mix(colour, PAPER[theme], SLOPE_COVER) : PAPER[theme], matrix));
    for (const [own, colour] of palette.entries()) {
      if (!colour) continue;
      for (const ground of grounds(theme)) {
        const seen = lab(mix(colour, ground, SLOPE_COVER), matrix);
        const distances = legend.map((other) => apart(seen, other));
        expect(distances.indexOf(Math.min(...distances))).toBe(own);
      }
    }
  });

  test.each(['light', 'dark'] as const)('step on in brightness from gentle to steep on a %s map', (theme) => {
    const steps = SLOPE_PALETTES[theme].map(
      (colour) => lab(colour ? mix(colour, PAPER[theme], SLOPE_COVER) : PAPER[theme], EYES.usual ?? [])[0],
    );
    const onwards = theme === 'light' ? -1 : 1;
    for (const [at, step] of steps.slice(1).entries()) expect(onwards * (step - (steps[at] ?? 0))).toBeGreaterThan(8);
  });

  test('and their limits are those of the design guide', () => {
    const rows = [
      ...guide.matchAll(
        /^\| (?:under|over|\d+ to) (\d+) % \| [a-z ]+ \| (\S+|not coloured) \| (\S+|not coloured) \|$/gm,
      ),
    ];
    const hex = (colour: Rgb | null) =>
      colour ? `\`#${colour.map((value) => value.toString(16).padStart(2, '0')).join('')}\`` : 'not coloured';
    expect(rows.map(([, , light]) => light)).toEqual(SLOPE_PALETTES.light.map(hex));
    expect(rows.map(([, , , dark]) => dark)).toEqual(SLOPE_PALETTES.dark.map(hex));
    expect(rows.slice(0, -1).map(([, percent]) => Number(percent) / 100)).toEqual([...SLOPE_EDGES]);
  });
});
