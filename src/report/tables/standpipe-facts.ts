import type { PlaceStretch, StandpipeResult } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { estimateWords } from '../words/measure-words.ts';
import type { LineFact } from './line-facts.ts';

/** What is known of the standpipe while the pump runs, as numbers with names. */
export function standpipeFacts(result: StandpipeResult, units: UnitSystem): readonly LineFact[] {
  const { runningLevel, overInlet, submergence, swing, surge } = result;
  const height = (field: string, name: string, value: number, words?: string): LineFact => {
    return { field, name, value, words: words ?? writeQuantity(value, 'height', units) };
  };
  return [
    height('running-level', 'Water level while running', runningLevel.likely, withRange(runningLevel, units)),
    height('over-inlet', 'Water over the inlet', overInlet.likely, withRange(overInlet, units)),
    height('submergence', 'Needed over the inlet', submergence),
    height('swing', 'Rise and fall in a beat', swing),
    height('surge', 'Overshoot at start and stop', surge),
  ];
}

function withRange(estimate: StandpipeResult['runningLevel'], units: UnitSystem): string {
  const { likely, range } = estimateWords(estimate, 'height', units);
  return range === null ? likely : `${likely} (${range})`;
}

/** Whether the level comes to rest or air goes in, and when. */
export function standpipeCourseSentence({ course }: StandpipeResult, units: UnitSystem): string {
  const last = course.moments.at(-1);
  if (course.airAfter !== null) {
    return `Used as planned, its inlet draws in air after ${writeQuantity(course.airAfter, 'duration', units)}.`;
  }
  if (last === undefined) return 'Its level over time is not known yet.';
  if (course.sinksOn)
    return 'Used as planned, its inlet stays covered for more than 30 days, but the store keeps draining.';
  return `Used as planned, its level comes to rest at ${writeQuantity(last.level, 'height', units)}.`;
}

/** Where along the drawn way it could stand, as lengths of drive pipe. */
export function standpipePlacesSentence({ places }: StandpipeResult, units: UnitSystem): string | null {
  if (places === null) return null;
  if (places.stretches.length === 0)
    return 'Nowhere along the drawn line can a standpipe stand that keeps all the rules.';
  const stretches = places.stretches.map((stretch) => stretchWords(stretch, units)).join(' or ');
  const { best } = places;
  const where =
    best === null
      ? ''
      : ` Best at ${writeQuantity(best.driveLength, 'length', units)}: ground ${writeQuantity(best.ground, 'height', units)}, ${writeQuantity(best.height, 'height', units)} tall.`;
  return `It can stand where the drive pipe is ${stretches} long.${where}`;
}

function stretchWords({ from, to }: PlaceStretch, units: UnitSystem): string {
  return writeRange(from, to, 'length', units);
}
