import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/**
 * Least depth of water over an inlet, in inches, of D inches and Q US gallons a minute: S = D + 0.574 Q / D^1.5. ANSI/HI 9.8-1998,
 * Pump Intake Design, section 9.8.7, its form in US units (from memory); in other units S = D (1 + 2.3 F), F = v / √(gD).
 */
const inches = (bore: number, gallonsPerMinute: number) => bore + (0.574 * gallonsPerMinute) / bore ** 1.5;

const INCH = 0.0254;
const GALLON_L = 3.785411784;
/** Steel pipe of 1-1/4 in, Schedule 40 (ASTM A53). */
const BORE_IN = 1.38;

function submergence(litres: number): number {
  const pump = {
    ...sheet,
    intakeLeast: litresPerMinute(5),
    intakeMost: litresPerMinute(60),
    intakeSet: litresPerMinute(litres),
  };
  const plan = { ...workingPlan, pump };
  const { standpipe } = evaluate(plan, madeGround(plan, { heights: workingHeights, lengths: workingLengths }));
  return standpipe?.submergence ?? Number.NaN;
}

describe('the inlet of the drive pipe', () => {
  test.each([25, 32, 40, 55])('lies under as much water as the standard asks for at %i L/min', (litres) => {
    // At its fastest the water runs twice as fast as in the mean: it speeds up evenly from rest.
    expect(submergence(litres) / INCH).toBeCloseTo(inches(BORE_IN, (2 * litres) / GALLON_L), 1);
  });

  test('never lies under less than 15 cm', () => {
    // Common practice, no source.
    expect(submergence(6)).toBe(0.15);
  });
});
