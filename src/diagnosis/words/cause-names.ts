import type { CauseCode } from '../model/causes.ts';

/** A cause by its name, as a sentence would begin. */
export const CAUSE_NAMES: Readonly<Record<CauseCode, string>> = {
  healthy: 'Nothing is wrong',
  'level-sunk': 'The water at the drive pipe has sunk',
  'valve-heavy': 'The waste valve is too heavy or its stroke too long',
  'valve-light': 'The waste valve is too light or its stroke too short',
  'seat-leak': 'The waste valve leaks at its seat',
  'body-leak': 'The body or the snifter leaks',
  'check-leak': 'The check valve leaks',
  'check-slow': 'The check valve shuts late',
  'air-in-water': 'Air comes with the water',
  'air-pocket': 'Air is caught at the pump',
  'chamber-empty': 'The air chamber has lost its air',
  'strainer-clogged': 'The strainer or the inlet is clogged',
  'outlet-drowned': 'The waste valve stands under water',
  'delivery-throttled': 'The delivery line is throttled',
  'delivery-summit': 'Air sits in a summit of the delivery line',
  'delivery-leak': 'The delivery line loses water',
  'no-back-pressure': 'There is too little back pressure',
  'drive-pipe-soft': 'The drive pipe is soft or loose',
  'something-else': 'Something else',
};

/** Chances in words, from the surest down. Common practice, no source. */
const WORDS = [
  { least: 0.9, words: 'almost surely' },
  { least: 0.6, words: 'likely' },
  { least: 0.3, words: 'quite possibly' },
  { least: 0.1, words: 'possibly' },
  { least: 0.03, words: 'not likely' },
  { least: 0, words: 'hardly' },
] as const;

const PERCENT = 100;
/** Shares beyond which a chance is not told more exactly: the model is not surer than that. */
const SUREST = 0.97;
const LEAST = 0.01;

export function chanceWords(chance: number): string {
  return WORDS.find(({ least }) => chance >= least)?.words ?? 'hardly';
}

/** A chance as a figure, never surer than the model is. */
export function chanceFigure(chance: number): string {
  if (chance > SUREST) return `over ${Math.round(SUREST * PERCENT)} %`;
  return chance < LEAST ? `under ${Math.round(LEAST * PERCENT)} %` : `${Math.round(chance * PERCENT)} %`;
}

/** A sentence's beginning inside another. */
export function lowered(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
