import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const page = readFileSync(`${root}docs/elevation-files.md`, 'utf8');

/** Codes of the refusals of the reader: the first field of what it throws or answers. */
function codesInSource(): Set<string> {
  const folder = `${root}src/terrain/`;
  const codes = new Set<string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!name.endsWith('.ts')) continue;
    const text = readFileSync(folder + name, 'utf8');
    const refusals =
      /(?:refuse|failed)\(\{\s*code: '([a-z-]+)'|code: '([a-z-]+)', (?:path|where):|code: '([a-z-]+)',\n\s*where/g;
    for (const match of text.matchAll(refusals)) codes.add(match[1] ?? match[2] ?? match[3] ?? '');
  }
  return codes;
}

/** Codes of addresses that the page refuses before it asks anything of a server. */
function codesOfTypedAddresses(): string[] {
  const text = readFileSync(`${root}src/app/client/typed-addresses.ts`, 'utf8');
  return [...text.matchAll(/'(address-[a-z-]+)'/g)].map((match) => match[1] ?? '');
}

/** Codes about several files together, which another page tells of. */
const OF_TERRAIN = /^(terrain|accuracy)-|^which-/;

test('every reason to refuse a file is on the page about elevation files, and no other', () => {
  const inSource = [...new Set([...codesInSource(), ...codesOfTypedAddresses()])]
    .filter((code) => !OF_TERRAIN.test(code))
    .sort();
  const refused = page.slice(page.indexOf('## Refused'));
  const onPage = [...refused.matchAll(/`([a-z-]+)`/g)].map((match) => match[1] ?? '').sort();
  expect(inSource.length).toBeGreaterThan(40);
  expect(onPage).toEqual(inSource);
});

test('every question is on the page with the flag that answers it', () => {
  const answers = readFileSync(`${root}src/terrain/georeference/open-answers.ts`, 'utf8');
  const flags = readFileSync(`${root}src/cli/input/terrain-files.ts`, 'utf8');
  const about = [...answers.matchAll(/about: '(\w+)'/g)].map((match) => match[1] ?? '');
  expect(about.length).toBe(7);
  for (const name of about) {
    const flag = new RegExp(`\\| \`${name}\` \\|.*\\| \`(--[^\`]+)\` \\|`).exec(page)?.[1];
    expect(flag, name).toBeDefined();
    expect(flags).toContain(`${name}: '${flag}'`);
  }
});
