import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const source = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Every rule of axe-core on the page as it is now; more than `least` of them must have found anything to look at. */
export async function assertAccessible(page, state, least = 10) {
  if (!(await page.evaluate('typeof axe === "object"'))) await page.evaluate(source);
  const { violations, passed } = await page.evaluate(async () => {
    const { violations, passes } = await globalThis.axe.run(document);
    const found = violations.map(({ id, help, nodes }) => ({
      rule: `${id}: ${help}`,
      at: nodes.slice(0, 4).map(({ target, failureSummary }) => `${target.join(' ')}\n    ${failureSummary}`),
    }));
    return { violations: found, passed: passes.length };
  });
  assert.ok(passed > least, `${state}: only ${passed} rules found anything to look at`);
  const words = violations.map(({ rule, at }) => `${rule}\n  ${at.join('\n  ')}`);
  assert.deepEqual(words, [], `${state}\n${words.join('\n')}`);
}
