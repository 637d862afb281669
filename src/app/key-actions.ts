import { copyAsAlternative } from './actions/desk-actions.ts';
import { redoStep, remove, select, undoStep } from './actions/edit-actions.ts';
import { openHelp, pickTool } from './actions/view-actions.ts';
import { savePlanToDisk } from './files/saving-actions.ts';
import { selection, tool } from './state/store.ts';

/** Listens to the keys that work all over the page. */
export function startKeys(): void {
  addEventListener('keydown', (event) => {
    if (event.defaultPrevented) return;
    if (takeKey(event, isTyping(event.target))) event.preventDefault();
  });
}

function takeKey(event: KeyboardEvent, typing: boolean): boolean {
  if (event.ctrlKey || event.metaKey) return takeCommand(event, typing);
  if (typing || event.altKey) return false;
  switch (event.key) {
    case 'Escape':
      if (tool.value === 'select') select(null);
      else pickTool('select');
      return true;
    case 'Delete':
      if (selection.value === null) return false;
      remove(selection.value);
      return true;
    case '?':
      openHelp(true);
      return true;
    default:
      return false;
  }
}

function takeCommand(event: KeyboardEvent, typing: boolean): boolean {
  const key = event.key.toLowerCase();
  if (key === 's') {
    // A field hands its text on when it is left; what is being typed belongs to the saved plan.
    if (document.activeElement instanceof HTMLElement && typing) document.activeElement.blur();
    void savePlanToDisk();
    return true;
  }
  if (typing) return false;
  // With Alt some keyboards write another letter, so that the key itself is asked for.
  if (event.altKey) return event.code === 'KeyC' && copyPlan();
  if (key === 'z' && !event.shiftKey) undoStep();
  else if (key === 'y' || key === 'z') redoStep();
  else return false;
  return true;
}

function copyPlan(): true {
  copyAsAlternative();
  return true;
}

/** Whether a key belongs to a field or a dialog at the moment. */
function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.closest('dialog') !== null || target.isContentEditable) return true;
  if (target instanceof HTMLInputElement) return !['checkbox', 'radio', 'range', 'button'].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}
