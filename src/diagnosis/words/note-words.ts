import type { Note } from '../diagnose.ts';
import { CAUSE_NAMES, lowered } from './cause-names.ts';
import { TEST_WORDS } from './test-words.ts';

const PERCENT = 100;

/** Said wherever somebody is about to open a ram. */
export const PRESSURE_CAUTION =
  'A ram under pressure hurts: close the drive valve, close the delivery valve, let the pressure off at the air chamber, and only then open anything.';

/** Said with every diagnosis. */
export const MODEL_CAUTION =
  'The signatures come from a model of the beat. It was compared with two simulations and, of published data, with intake and delivery of one ram (L. F. Allen, 1852); these faults were not measured, least of all at your ram.';

export function noteWords(note: Note): string {
  switch (note.code) {
    case 'nothing-read':
      return 'Nothing has been read yet: the chances are those of rams in general.';
    case 'cannot-tell-apart': {
      const [one, other] = note.causes.map((code) => lowered(CAUSE_NAMES[code]));
      const by = note.by === null ? 'No single reading here tells them apart.' : TEST_WORDS[note.by.test.code];
      return `What was read does not tell these two apart: ${one}, or ${other}. ${by}`;
    }
    case 'none-fits':
      return 'None of the causes on the list fits what was read. Read again, and look for what is not on the list.';
    case 'more-than-one': {
      const [one, other] = note.causes.map((code) => lowered(CAUSE_NAMES[code]));
      return `No single cause explains all readings; more than one must be at work, perhaps: ${one}, and ${other}.`;
    }
    case 'no-fault-if-source-is-short':
      return `It makes better use of its water than before (efficiency ${Math.round(PERCENT * note.now)} % against ${Math.round(PERCENT * note.well)} %): no fault if the source is short.`;
    case 'no-record':
      return 'There is no record of this ram when it ran well; with one the causes are told apart far better. Keep one once it runs.';
  }
}
