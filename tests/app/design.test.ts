import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MAP_COLOURS } from '../../src/app/map/map-colours.ts';

const styles = readFileSync(new URL('../../src/app/style/tokens.css', import.meta.url), 'utf8');
const guide = readFileSync(new URL('../../docs/design.md', import.meta.url), 'utf8');

type Palette = Readonly<Record<string, string>>;

function colours(block: string | undefined): Palette {
  return Object.fromEntries(
    [...(block ?? '').matchAll(/(--[a-z-]+):\s*(#[0-9a-f]{6})/g)].map(([, name, value]) => [name, value]),
  );
}

const [lightBlock, darkBlock] = styles.split('}');
const light = colours(lightBlock);
const dark: Palette = { ...light, ...colours(darkBlock) };

/** Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.2, 2023, definitions of both. */
function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [brighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (brighter + 0.05) / (darker + 0.05);
}

const rows = [...guide.matchAll(/^\| `(--[a-z-]+)` on `(--[a-z-]+)` \| ([\d.]+) \| ([\d.]+) \| ([\d.]+) \|$/gm)].map(
  ([, over = '', under = '', least, inLight, inDark]) => ({
    over,
    under,
    least: Number(least),
    stated: { light: Number(inLight), dark: Number(inDark) },
  }),
);

function shade(palette: Palette, name: string): string {
  const found = palette[name];
  if (found === undefined) throw new Error(`the style sheet has no colour ${name}`);
  return found;
}

describe('the palette', () => {
  it('is measured by a formula that gives the published ratios', () => {
    // 21:1 is the guideline's own example; 4.48:1 is the well-known near miss of #777777 on white (from memory).
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
  });

  it('is listed pair by pair in the guide', () => {
    expect(rows.length).toBeGreaterThanOrEqual(28);
  });

  it.each(rows)(
    'keeps $over on $under readable in light and dark, as the guide states',
    ({ over, under, least, stated }) => {
      const inLight = contrast(shade(light, over), shade(light, under));
      const inDark = contrast(shade(dark, over), shade(dark, under));
      expect(inLight).toBeGreaterThanOrEqual(least);
      expect(inDark).toBeGreaterThanOrEqual(least);
      expect(Math.abs(inLight - stated.light)).toBeLessThanOrEqual(0.051);
      expect(Math.abs(inDark - stated.dark)).toBeLessThanOrEqual(0.051);
    },
  );

  it.each(['light', 'dark'] as const)('is the same on the map and on the page in %s', (theme) => {
    const palette = theme === 'light' ? light : dark;
    const map = MAP_COLOURS[theme];
    expect({ ...map.routes, paper: map.paper, sheet: map.sheet, ink: map.ink, focus: map.focus }).toEqual(
      Object.fromEntries(
        ['supply', 'drive', 'delivery', 'gravity', 'paper', 'sheet', 'ink', 'focus'].map((name) => [
          name,
          shade(palette, `--${name}`),
        ]),
      ),
    );
  });
});
