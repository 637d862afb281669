import { effect } from '@preact/signals';
import { keepDesk, warnBeforeLeaving } from './keep-desk.ts';
import { answerOtherTabs, findLeft } from './keeping-actions.ts';
import { rememberDroppedHandles } from './kept-files.ts';

/** Looks for what was left behind, and keeps the user's work from now on. */
export function startKeeping(): void {
  rememberDroppedHandles();
  answerOtherTabs();
  addEventListener('beforeunload', warnBeforeLeaving);
  effect(keepDesk);
  void findLeft();
}
