import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PROGRAM_ABOUT } from '../../src/report/words/safe-file-name.ts';
import { runCommand } from './run-command.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const plan = `${root}data/demo/plan.geojson`;
const dem = `${root}data/demo/dem.tif`;

describe('the command report', () => {
  it.each([
    ['owner', 'Report'],
    ['visit', 'Site visit sheet'],
  ])('writes one page without script and with nothing to fetch: %s', async (sheet, words) => {
    const ending = await runCommand(['report', plan, '--dem', dem, '--sheet', sheet, '--date', '2026-05-31']);
    expect(ending.err).toBe('');
    expect(ending.code).toBe(0);
    expect(ending.out).toMatch(/^<!doctype html>/);
    expect(ending.out).toContain(`${words} · 2026-05-31`);
    expect(ending.out).not.toMatch(/<script|<link|@import|(src|href)=|url\((?!#)/);
    expect(ending.out).toContain('<thead>');
  });

  it('styles it for paper: heads repeat, rows and figures stay whole, nothing is fetched', () => {
    // Read from the file: the test runner leaves style sheets empty.
    const style = readFileSync(`${root}src/report/print/report.css`, 'utf8');
    const rule = (selector: string) => new RegExp(`^${selector} \\{([^}]*)\\}`, 'm').exec(style)?.[1] ?? '';
    expect(rule('\\.report thead')).toContain('display: table-header-group');
    expect(rule('\\.report tr')).toContain('break-inside: avoid');
    expect(rule('\\.report figure')).toContain('break-inside: avoid');
    expect(rule('\\.report h3')).toContain('break-after: avoid');
    expect(style).not.toMatch(/@import|url\(|<\//);
  });

  it('draws on paper in black and greys alone, so that it can be copied', () => {
    const style = readFileSync(`${root}src/report/print/report.css`, 'utf8');
    const colours = [...style.matchAll(/#([0-9a-f]{3,8})\b/g)].map(([, digits]) => digits ?? '');
    expect(colours.length).toBeGreaterThan(10);
    for (const digits of colours) expect(new Set(digits.length === 3 ? digits : digits.match(/../g)).size).toBe(1);
  });

  it('prints a plan without an elevation file too', async () => {
    const ending = await runCommand(['report', plan]);
    expect(ending.code).toBe(0);
    expect(ending.out).toContain('No elevation file was open');
  });

  it.each([
    [['--sheet', 'poster'], '--sheet: found poster, expected owner or engineer or visit'],
    [['--date', '2026-02-30'], '--date: found 2026-02-30, expected a day such as 2026-05-31'],
    [['--units', 'cubits'], '--units: found cubits, expected metric or us'],
  ])('refuses what it cannot print: %s', async (flags, sentence) => {
    const ending = await runCommand(['report', plan, ...flags]);
    expect(ending.code).toBe(2);
    expect(ending.err).toContain(sentence);
  });

  it('names the version that the package has', () => {
    const about: unknown = JSON.parse(readFileSync(`${root}package.json`, 'utf8'));
    expect(about).toMatchObject({ version: PROGRAM_ABOUT.version });
  });
});
