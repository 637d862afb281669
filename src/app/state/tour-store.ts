import { computed, signal } from '@preact/signals';
import { TOUR_PARTS } from '../../report/glossary/tour-words.ts';
import { evaluation, groundBusy, plan, selection } from './store.ts';

/** At which of its six stops the guided look is; null while nobody takes it. */
export const tourStop = signal<number | null>(null);
/** Stops at which the learner has done what was asked. */
export const tourDone = signal<ReadonlySet<number>>(new Set());
/** Whether a sheet was laid out for printing since the look began. */
export const sheetSeen = signal(false);

/** Whether what the present stop asks for is so. */
export const stopReached = computed<boolean>(() => {
  const chosen = selection.value?.id;
  const verdict = (id: string) => evaluation.value?.tanks.find((tank) => tank.id === id)?.verdict ?? null;
  switch (tourStop.value) {
    case 0:
      return chosen === TOUR_PARTS.pump;
    case 1:
      return chosen === TOUR_PARTS.served;
    case 2:
      return !groundBusy.value && verdict(TOUR_PARTS.behind) === 'holds';
    case 3:
      return !groundBusy.value && plan.value.measurements.length > 0 && verdict(TOUR_PARTS.waiting) !== 'measure';
    case 4:
      return chosen === TOUR_PARTS.waiting;
    case 5:
      return sheetSeen.value;
    default:
      return false;
  }
});
