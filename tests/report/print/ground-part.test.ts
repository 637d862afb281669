import { expect, it } from 'vitest';
import type { HeightConstants } from '../../../src/plan/model/plan.ts';
import { groundPart } from '../../../src/report/print/ground-part.ts';
import { accuracyClasses } from '../../../src/terrain/accuracy/height-accuracy.ts';
import { demoSource, wordsOf } from './print-made.ts';

/** Constants told apart by their figures. */
const OWN: HeightConstants = {
  nugget: 0.31,
  near: 0.42,
  nearRange: 87,
  far: 0.53,
  farRange: 940,
  placement: 2.6,
  smoothingDoubt: 3.7,
};

async function printed(accuracy: string | null, constants: HeightConstants | null): Promise<string> {
  const source = await demoSource((plan) => ({
    ...plan,
    units: 'metric',
    terrain: { files: ['dem.tif'], accuracy, constants },
  }));
  const part = groundPart(source);
  return part === null ? '' : wordsOf(part).replaceAll(/\s+/g, ' ');
}

it('every constant of the spread is printed, those typed in as well', async () => {
  const words = await printed(null, OWN);
  for (const figure of ['0.31 m', '0.42 m', '87.0 m', '0.53 m', '940.0 m', '2.6 m', '3.7 ×'])
    expect(words).toContain(figure);
  expect(words).toContain('typed into the plan');
});

it('the constants of a class are printed with the source of the figure that was published', async () => {
  const chosen = accuracyClasses.find(({ id }) => id === 'lidar-5m');
  if (chosen === undefined) throw new Error('expected the class lidar-5m');
  const words = await printed(chosen.id, null);
  expect(words).toContain(`${chosen.smoothingDoubt} ×`);
  expect(words).toContain(chosen.source);
});
