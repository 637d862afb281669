import { isKept } from '../../autosave/keep-desk.ts';
import { isUnsaved, sheets } from '../../state/alternatives.ts';

/** Asks before unsaved changes are let go; those that are kept in this browser can be opened again and need no question. */
export async function askThen(go: () => void): Promise<void> {
  const asked = !sheets.value.some(isUnsaved) || (await isKept());
  if (asked || window.confirm('The plan has changes that are not saved. Let them go?')) go();
}
