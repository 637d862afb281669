import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { ELEVATION_SOURCES, WHAT_TO_ASK_FOR } from '../../src/report/glossary/elevation-words.ts';

const text = readFileSync(fileURLToPath(new URL('../../docs/getting-a-dem.md', import.meta.url)), 'utf8');
const part = (heading: string) => text.split(/^## /m).find((each) => each.startsWith(heading)) ?? '';
const plain = (words: string) => words.replace(/\[([^\]]+)\]\([^)]*\)/g, '$1').replace(/[*`]/g, '');

it('the help names the publishers that the document names', () => {
  const rows = part('Who publishes them')
    .split('\n')
    .filter((line) => line.startsWith('|'))
    .slice(2)
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => plain(cell.trim())),
    );
  expect(rows.length).toBeGreaterThan(15);
  expect(ELEVATION_SOURCES).toEqual(rows);
});

it('the help says as many things to ask for as the document', () => {
  const items = part('What to ask for').match(/^\d+\. \*\*(.+?)\*\*/gm) ?? [];
  expect(items.length).toBe(WHAT_TO_ASK_FOR.length);
  for (const [i, item] of items.entries()) expect(WHAT_TO_ASK_FOR[i]).toContain(plain(item.replace(/^\d+\. /, '')));
});
