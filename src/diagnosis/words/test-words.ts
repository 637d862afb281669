import type { NoField } from '../model/field-of-plan.ts';
import type { TestCode } from '../ranking/next-tests.ts';

/** What a plan lacks to find a fault at its pump by. */
export const MISSING: Readonly<Record<NoField, { readonly found: string; readonly expected: string }>> = {
  'no-pump': { found: 'no pump on known ground', expected: 'a plan with a source, a pump and what the pump is' },
  'no-drive-pipe': { found: 'no drive pipe', expected: 'a plan whose drive pipe is drawn on known ground' },
  'no-delivery': { found: 'no delivery line', expected: 'a plan with a delivery line to a tank' },
  'no-fall': { found: 'no fall', expected: 'a pump that stands lower than the water at its drive pipe' },
  'already-arrives': {
    found: 'an outlet that lies lower than the source',
    expected: 'a delivery that needs a pump',
  },
};

/** What to do, as an imperative. */
export const TEST_WORDS: Readonly<Record<TestCode, string>> = {
  'count-beats': 'Count thirty beats, or the beats of a full minute.',
  'bucket-waste': 'Catch the waste water in a bucket and take the time.',
  'bucket-at-pump': 'Catch the delivery at the pump in a bucket and take the time.',
  'bucket-at-tank': 'Catch the delivery at the tank in a bucket and take the time.',
  'gauge-running': 'Read the gauge at the air chamber while it runs.',
  'gauge-at-rest': 'Shut the drive valve, wait, and read the gauge at rest.',
  'gauge-swing': 'Watch by how much the gauge swings in a beat.',
  'water-level': 'Measure how high the water at the drive pipe stands over the waste valve.',
  'tail-water': 'Look whether water stands over the waste valve, and how high.',
  'trickle-at-rest': 'Hold the waste valve shut, drive valve open, and catch what trickles out of it.',
  'drip-at-body': 'Catch what drips or squirts out of body and snifter at rest.',
  'bucket-pour': 'Catch what pours out of the open waste valve and take the time.',
  'drain-and-look':
    'Shut the drive valve, let the pressure off, open the body, and catch what comes back through the check valve.',
  'flush-and-count': 'Hold the waste valve down for a minute, let it go, and count the beats again.',
  'watch-jitter': 'Tap thirty beats and see how evenly they come.',
  'throttle-and-try': 'Shut the delivery valve nearly, push the waste valve down, and see whether it runs.',
  'fill-and-hold': 'Shut the valve at the pump, fill the delivery line, and see whether it keeps its water.',
};
