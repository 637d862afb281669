import type { ColourRule } from './picture-layout.ts';

/** Interleaved 8-bit samples of `count` pixels. */
export interface PictureSamples {
  readonly bytes: Uint8Array;
  readonly perPixel: number;
  readonly count: number;
}

/** Turns stored samples into red, green, blue and opacity. */
export function colourPixels(
  { bytes, perPixel, count }: PictureSamples,
  rule: ColourRule,
): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray(4 * count);
  for (let pixel = 0; pixel < count; pixel += 1) {
    const from = pixel * perPixel;
    const to = 4 * pixel;
    const clear = writeColour(bytes, from, rgba, to, rule);
    rgba[to + 3] = clear ? 0 : rule.alpha === null ? 255 : (bytes[from + rule.alpha] ?? 255);
  }
  return rgba;
}

/** Writes the colour and says whether the samples mean "no picture here". */
function writeColour(bytes: Uint8Array, from: number, rgba: Uint8ClampedArray, to: number, rule: ColourRule): boolean {
  const first = bytes[from] ?? 0;
  if (rule.kind === 'rgb') {
    rgba[to] = first;
    rgba[to + 1] = bytes[from + 1] ?? 0;
    rgba[to + 2] = bytes[from + 2] ?? 0;
    return first === rule.noData && bytes[from + 1] === rule.noData && bytes[from + 2] === rule.noData;
  }
  for (let channel = 0; channel < 3; channel += 1) {
    const grey = rule.kind === 'grey-inverted' ? 255 - first : first;
    rgba[to + channel] = rule.kind === 'palette' ? (rule.palette[3 * first + channel] ?? 0) : grey;
  }
  return first === rule.noData;
}
