import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { calm, openDemo } from './steps/planner.mjs';

/** The demo with a weak spring: its pump starves. */
async function weakSpring() {
  const plan = JSON.parse(await readFile('data/demo/plan.geojson', 'utf8'));
  plan.rillwright.yield_readings = [{ kind: 'stated', flow_L_per_min: 7, plus_minus_L_per_min: 0.7 }];
  return Buffer.from(JSON.stringify(plan));
}

async function openWeak(page, origin) {
  await openDemo(page, origin);
  const file = { name: 'weak.geojson', mimeType: 'application/geo+json', buffer: await weakSpring() };
  await page.locator('input[type=file][accept=".geojson,.json,.zip"]').setInputFiles(file);
  await page.locator('.plan-verdict[data-state="stops"] .do-it').waitFor();
}

/** Whether an element lies wholly inside the window, without scrolling anything. */
async function isInView(page, locator) {
  const box = await locator.boundingBox();
  const { width, height } = page.viewportSize();
  return box !== null && box.x >= 0 && box.y >= 0 && box.x + box.width <= width + 1 && box.y + box.height <= height + 1;
}

const seen = (width, height) => ({
  options: { ...calm, viewport: { width, height } },
  run: async ({ page, origin }) => {
    await openWeak(page, origin);
    const answer = page.getByRole('region', { name: 'Answer for the plan' });
    for (const part of [
      answer.getByText(/^It will not run as drawn: too little water for the pump/),
      answer.getByText(/gets 0.L\/day; 1290.L\/day is needed/),
      answer.getByRole('button', { name: /^Use a [^ ]+ in ram/ }),
      answer.getByRole('button', { name: /^Next: / }),
    ])
      assert.ok(await isInView(page, part), `${await part.textContent()} is not in view at ${width} × ${height}`);
  },
});

export const cases = {
  'on a wide screen the answer, its reason, its remedy and the first reading are seen at once': seen(1440, 900),
  'on a small screen too': seen(1024, 768),
  'on a telephone too': seen(390, 844),
  'the button takes the remedy as one step, which Undo takes back': {
    options: calm,
    run: async ({ page, origin }) => {
      await openWeak(page, origin);
      const answer = page.locator('.plan-verdict');
      await answer.locator('.do-it').focus();
      await page.keyboard.press('Enter');
      await page.locator('.plan-verdict[data-state="runs"]').waitFor();
      await page
        .getByText(/do: Use a [^ ]+ in ram/)
        .first()
        .waitFor({ state: 'attached' });
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await page.locator('.plan-verdict[data-state="stops"]').waitFor();
    },
  },
};
