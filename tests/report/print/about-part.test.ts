import { expect, it } from 'vitest';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { aboutPart } from '../../../src/report/print/engineer-appendix.ts';
import { demoPlan, demoSource, sourceOf, wordsOf } from './print-made.ts';

const ADDRESS = 'https://dem.invalid/valley/dem.tif?key=word';
const byAddress = (plan: Plan): Plan => ({
  ...plan,
  terrain: { files: [ADDRESS], accuracy: null, constants: null },
});

it('heights from an address are printed with it, but without the key in it, open or not', async () => {
  for (const source of [await demoSource(byAddress), sourceOf(byAddress(demoPlan()))]) {
    const part = aboutPart(source);
    const words = part === null ? '' : wordsOf(part);
    expect(words).toContain('Elevation: https://dem.invalid/valley/dem.tif');
    expect(words).not.toContain('word');
  }
});
