import assert from 'node:assert/strict';
import { assess, demoDem, demoPlan } from './steps/command-line.mjs';
import { answerNumbers, assertAnswer, tankVerdicts } from './steps/numbers.mjs';
import { calm, canUndo, openDemo } from './steps/planner.mjs';

export const cases = {
  'the demo opens with a tank that holds, one that fails and one to measure for': {
    options: calm,
    run: async ({ page, origin }) => {
      const [answer] = await Promise.all([assess(demoPlan, demoDem), openDemo(page, origin)]);
      const expected = { 'tank-shoulder': 'holds', 'tank-behind-knoll': 'fails', 'tank-spur': 'measure' };
      const words = { 'tank-shoulder': 'OK', 'tank-behind-knoll': 'fails', 'tank-spur': 'check on site' };
      assert.deepEqual(await tankVerdicts(page), words);
      assert.deepEqual(Object.fromEntries(answer.tanks.map(({ id, verdict }) => [id, verdict])), expected);
      assert.equal(await canUndo(page), false);
      assertAnswer(await answerNumbers(page), answer);
    },
  },

  'every finding that does not hold is shown with the verdict of the command line': {
    options: calm,
    run: async ({ page, origin }) => {
      const [answer] = await Promise.all([assess(demoPlan, demoDem), openDemo(page, origin)]);
      const all = (verdict) => answer.findings.filter((each) => each.verdict === verdict).map(({ code }) => code);
      const shown = await page
        .locator('.findings > li')
        .evaluateAll((items) => items.map(({ dataset }) => [dataset.verdict, dataset.code]));
      for (const verdict of ['fails', 'measure', 'holds']) {
        const codes = shown.filter(([each]) => each === verdict).map(([, code]) => code);
        assert.deepEqual(codes, all(verdict), verdict);
      }
      const first = await page
        .locator('.measure-first > li')
        .evaluateAll((items) => items.map((i) => i.dataset.quantity));
      assert.deepEqual(
        first,
        answer.measure_first.map(({ quantity }) => quantity),
      );
    },
  },
};
