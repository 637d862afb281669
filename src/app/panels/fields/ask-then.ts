import { isKept } from '../../autosave/keep-desk.ts';
import { isHanded, isUnsaved, sheets } from '../../state/alternatives.ts';

/** Asks before unsaved changes are let go; those that are kept in this browser can be opened again and need no question. */
export async function askThen(go: () => void): Promise<void> {
  const asked = !sheets.value.some((sheet) => isUnsaved(sheet) || isHanded(sheet)) || (await isKept());
  if (
    asked ||
    window.confirm(
      'The plan has changes that are in no file that the page knows of, and not kept in this browser. Let them go?',
    )
  )
    go();
}
