import type { KeptTerrain } from '../../autosave/kept-files.ts';

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
