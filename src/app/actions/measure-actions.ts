import type { MeasureFirst } from '../../evaluation/result/evaluation.ts';
import { setPump } from '../../plan/edits/edit-water.ts';
import type { PhysicalRam, PumpSheet } from '../../plan/model/plan.ts';
import { measuredFrom } from '../../report/words/measure-words.ts';
import type { Problem } from '../../units/outcome.ts';
import { askedForm, otherPump } from '../state/measure-store.ts';
import { history, panel } from '../state/store.ts';
import { edit, showById } from './edit-actions.ts';

/** Opens the form in which a thing of the list is entered, with what it is measured against filled in. */
export function enterMeasured(item: Pick<MeasureFirst, 'quantity' | 'about'>): void {
  const { points } = history.value.present;
  const isPoint = points.some(({ id }) => id === item.about);
  if (item.quantity === 'source-yield') {
    askedForm.value = { kind: 'bucket' };
    panel.value = 'inputs';
  } else if (item.quantity === 'pump-efficiency') {
    askedForm.value = { kind: 'run' };
    panel.value = 'inputs';
  } else {
    const from = measuredFrom(history.value.present, item);
    const isHeight = isPoint && (from !== null || item.quantity === 'ground');
    askedForm.value = isHeight ? { kind: 'height', point: item.about, from } : null;
    showById(item.about);
  }
}

/** The form is filled in, or was left. */
export function formDone(): void {
  askedForm.value = null;
}

/** Changes what the pump is known by; what was entered the other way is kept for when the choice is turned back. */
export function choosePump(
  kind: 'none' | 'sheet' | 'ram',
  first: { readonly sheet: PumpSheet; readonly ram: PhysicalRam },
): readonly Problem[] {
  const { pump } = history.value.present;
  const known = { ...otherPump.value, ...(pump !== null && { [pump.kind]: pump }) };
  otherPump.value = known;
  return edit((plan) => setPump(plan, kind === 'none' ? null : (known[kind] ?? first[kind])));
}
