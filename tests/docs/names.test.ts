import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { documents, exists, quoted, root } from './documents.ts';

const PATH = /^(?:src|tests|data|scripts|docs|bin|public)\/[\w./-]*$/;
const BARE_FILE = /^[\w-]+\.(?:ts|tsx|mjs)$/;

const all = documents();
const scripts = Object.keys(JSON.parse(readFileSync(`${root}package.json`, 'utf8')).scripts);

describe('the documents', () => {
  it('name files and folders that are there', () => {
    const named = all.flatMap(({ path, text }) =>
      quoted(text)
        .filter((word) => PATH.test(word))
        .map((word) => ({ in: path, names: word })),
    );
    expect(named.length).toBeGreaterThan(20);
    expect(named.filter(({ names }) => !exists(names))).toEqual([]);
  });

  it('name npm scripts that are there', () => {
    const named = all.flatMap(({ path, text }) =>
      [...text.matchAll(/npm run (?:-s )?([a-z:-]+)/g)].map((match) => ({ in: path, names: match[1] ?? '' })),
    );
    expect(named.length).toBeGreaterThan(5);
    expect(named.filter(({ names }) => !scripts.includes(names))).toEqual([]);
  });
});

describe('the life of a plan', () => {
  const life = all.find(({ path }) => path === 'docs/life-of-a-plan.md');

  it('goes through every floor of the program', () => {
    const files = quoted(life?.text ?? '').filter((word) => /^src\/.+\.tsx?$/.test(word));
    const floors = new Set(files.map((file) => file.split('/')[1]));
    expect([...floors].sort()).toEqual(
      expect.arrayContaining(['app', 'evaluation', 'hydraulics', 'plan', 'report', 'terrain', 'worker']),
    );
    expect(new Set(files).size).toBeGreaterThan(30);
  });

  it('names each file with its folder, so that a file that is gone is noticed', () => {
    expect(quoted(life?.text ?? '').filter((word) => BARE_FILE.test(word))).toEqual([]);
  });
});
