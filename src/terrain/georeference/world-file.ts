import { refuse } from '../bytes/file-refusal.ts';
import type { Affine } from '../grid/grid.ts';

const LINES = 6;
/** Far more letters than six numbers need. */
const MOST_LETTERS = 2000;
const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;

/**
 * Reads a world file as the affine for corners of pixels at whole numbers.
 *
 * Its six lines are A, D, B, E, C, F with x = A·column + B·row + C and y = D·column + E·row + F, where column 0 and row 0 mean
 * the middle of the upper left pixel; half a pixel each way is taken off here. B and D turn the picture. A comma may stand
 * for the point. Source: GDAL raster drivers documentation, "ESRI World File"; Esri ArcMap help, "World files for raster datasets".
 */
export function readWorldFile(text: string): Affine {
  const expected = 'six lines with a number each';
  if (text.length > MOST_LETTERS) refuse({ code: 'world-file', where: '', found: `${text.length} letters`, expected });
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim());
  const words = lines.filter((line) => line !== '');
  if (words.length !== LINES) refuse({ code: 'world-file', where: '', found: `${words.length} lines`, expected });
  const [a = 0, d = 0, b = 0, e = 0, c = 0, f = 0] = words.map(numberOf);
  if (a * e - b * d === 0) {
    const found = `the steps ${a}, ${d} and ${b}, ${e}`;
    refuse({ code: 'world-file', where: '', found, expected: 'pixels that have an area' });
  }
  return { a, b, c: c - (a + b) / 2, d, e, f: f - (d + e) / 2 };
}

/** A world file of an affine for corners of pixels at whole numbers. */
export function writeWorldFile({ a, b, c, d, e, f }: Affine): string {
  return `${[a, d, b, e, c + (a + b) / 2, f + (d + e) / 2].join('\n')}\n`;
}

function numberOf(word: string): number {
  const plain = /^[-+\d]+,\d+$/.test(word) ? word.replace(',', '.') : word;
  const value = NUMBER.test(plain) ? Number(plain) : Number.NaN;
  if (Number.isFinite(value)) return value;
  return refuse({ code: 'world-file', where: '', found: `“${word.slice(0, 40)}”`, expected: 'a number on every line' });
}
