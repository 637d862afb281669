import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

/**
 * Compares a text with its stored file in `golden/`. On a difference the new text is left beside it with `-changed` in its
 * name; when it is right, rename it over the old one.
 */
export function expectGolden(name: string, text: string): void {
  const stored = fileURLToPath(new URL(`./golden/${name}`, import.meta.url));
  const changed = stored.replace(/(\.[a-z]+)$/, '-changed$1');
  const before = existsSync(stored) ? readFileSync(stored, 'utf8') : null;
  if (before === text) {
    rmSync(changed, { force: true });
    return;
  }
  mkdirSync(dirname(stored), { recursive: true });
  writeFileSync(changed, text);
  expect(before, `golden/${name} differs; the new text is in ${changed}`).toBe(text);
}
