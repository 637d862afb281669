import type { KeptTerrain } from '../../autosave/kept-files.ts';

const DAY_MS = 24 * 60 * 60 * 1000;

/** When something was kept: the time of day, with the date unless it was in the last 24 hours. */
export function whenWords(at: number, now: number): string {
  const then = new Date(at);
  const time = `${two(then.getHours())}:${two(then.getMinutes())}`;
  if (now - at < DAY_MS) return time;
  return `${then.getFullYear()}-${two(then.getMonth() + 1)}-${two(then.getDate())}, ${time}`;
}

function two(number: number): string {
  return String(number).padStart(2, '0');
}

/** Bytes as a person says them, in the thousands of the International System. */
export function sizeWords(bytes: number): string {
  if (bytes < 1e3) return `${bytes} B`;
  if (bytes < 1e6) return `${Math.round(bytes / 1e3)} kB`;
  return bytes < 1e7 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.round(bytes / 1e6)} MB`;
}

/** What of a work's elevation is kept in the browser, and what is not. */
export function terrainWords({ bytes, elsewhere, named }: KeptTerrain): string {
  const parts = [];
  if (bytes > 0) parts.push(`${sizeWords(bytes)} of elevation kept`);
  if (elsewhere > 0) parts.push(`${files(elsewhere)} of elevation opened again from where ${lie(elsewhere)}`);
  if (named > 0) parts.push(`${files(named)} of elevation to be chosen again`);
  return parts.length === 0 ? 'no elevation' : parts.join(', ');
}

const files = (count: number) => (count === 1 ? '1 file' : `${count} files`);
const lie = (count: number) => (count === 1 ? 'it lies' : 'they lie');
