import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { findingsDocument } from '../../src/report/findings/findings-document.ts';

test('docs/findings.md says what the code says; `node scripts/findings-doc.mjs` writes it anew', () => {
  expect(readFileSync('docs/findings.md', 'utf8')).toBe(findingsDocument());
});
