import { openCopy, openWork } from '../../autosave/keeping-actions.ts';
import type { KeptWork } from '../../autosave/kept-work.ts';
import { askThen } from '../fields/ask-then.ts';

/** Opens a kept work in the place of what is on the page; that is asked for only if it would be lost. */
export function openInstead(work: KeptWork): void {
  void askThen(() => void openWork(work));
}

/** The same with a copy of a work that another tab has open. */
export function copyInstead(work: KeptWork): void {
  void askThen(() => void openCopy(work));
}
