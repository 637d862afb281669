import { unsaved } from '../state/store.ts';

/** Asks before unsaved changes are let go. */
export function askThen(go: () => void): void {
  if (!unsaved.value || window.confirm('The plan has changes that are not saved. Let them go?')) go();
}
