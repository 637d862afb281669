/** Marks that turn the direction of the text around them, or show nothing at all. */
const DIRECTION_MARKS = /[\u061c\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]/gu;
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROLS = /[\u0000-\u0008\u000e-\u001f\u007f-\u009f\ufffe\uffff]|\p{Surrogate}/gu;
const LONGEST_NAME = 200;
const LONGEST_NOTE = 4000;

/** A name out of a file as one line a plan can hold: no control and direction marks, blanks run together. */
export function cleanName(text: string): string {
  return cut(plain(text).replace(/\s+/gu, ' ').trim(), LONGEST_NAME).trim();
}

/** Prose out of a file: no control and direction marks but for line ends and tabs. */
export function cleanNote(text: string): string {
  const lines = plain(text).replace(/\r\n?|[\u2028\u2029\v\f]/g, '\n');
  return cut(lines.trim(), LONGEST_NOTE).trim();
}

/** Whether cleaning a name took more from it than blanks. */
export function lostMarks(text: string): boolean {
  return cleanName(text) !== text.replace(/\s+/gu, ' ').trim();
}

/** A text found, in a few characters and with every hidden mark spelt out. */
export function shownText(text: string): string {
  const short = [...text.slice(0, 80)].slice(0, 40).join('');
  const spelt = JSON.stringify(short)
    .replace(DIRECTION_MARKS, spellOut)
    .replace(CONTROLS, spellOut)
    .replace(/[\u2028\u2029]/g, spellOut);
  return short.length < text.length ? `${spelt}…` : spelt;
}

function plain(text: string): string {
  return text.replace(DIRECTION_MARKS, '').replace(CONTROLS, '');
}

function spellOut(mark: string): string {
  return `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** The text up to a number of UTF-16 units, without half a character at the end. */
function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  return text.slice(0, most).replace(/\p{Surrogate}$/u, '');
}
