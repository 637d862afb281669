import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const source = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Every rule of axe-core on the page as it is now. */
export async function assertAccessible(page, state) {
  if (!(await page.evaluate('typeof axe === "object"'))) await page.evaluate(source);
  const { violations, passed } = await page.evaluate(async () => {
    const { violations, passes } = await globalThis.axe.run(document);
    const found = violations.map(({ id, help, nodes }) => ({
      rule: `${id}: ${help}`,
      at: nodes.slice(0, 4).map(({ target, failureSummary }) => `${target.join(' ')}\n    ${failureSummary}`),
    }));
    return { violations: found, passed: passes.length };
  });
  assert.ok(passed > 10, `${state}: only ${passed} rules found anything to look at`);
  const words = violations.map(({ rule, at }) => `${rule}\n  ${at.join('\n  ')}`);
  assert.deepEqual(words, [], `${state}\n${words.join('\n')}`);
}
