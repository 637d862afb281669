import { type Fault, fault } from '../state/fault-state.ts';
import { announcement } from '../state/store.ts';

/** Longest details that are taken along, characters. */
const MOST_DETAILS = 4000;

/** Tells the user that something in the planner failed, instead of leaving a page that does nothing. */
export function tellFault(error: unknown, part: string | null): Fault {
  const told = { part, message: messageOf(error), details: detailsOf(error, part) };
  fault.value = told;
  return told;
}

/** Listens for whatever was thrown where nobody waited for it: in the page, in a promise, in a worker. */
export function watchFaults(): void {
  addEventListener('error', (event) => {
    // What the browser says of its own layout is no fault of the page's.
    if (event.error === null && event.message.startsWith('ResizeObserver')) return;
    tellFault(event.error ?? event.message, null);
  });
  addEventListener('unhandledrejection', ({ reason }) => {
    // Whoever stopped something knows it.
    if (reason instanceof DOMException && reason.name === 'AbortError') return;
    tellFault(reason, null);
  });
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message || error.name : String(error);
}

function detailsOf(error: unknown, part: string | null): string {
  const stack = error instanceof Error ? error.stack : undefined;
  return [part === null ? 'Rillwright' : `Rillwright, ${part}`, stack ?? messageOf(error), navigator.userAgent]
    .join('\n')
    .slice(0, MOST_DETAILS);
}

/** Puts what a developer wants to see into the clipboard. It holds no word of the plan but what the error itself says. */
export async function copyFault({ details }: Fault): Promise<void> {
  try {
    await navigator.clipboard.writeText(details);
    announcement.value = 'The details were copied.';
  } catch {
    announcement.value = 'The browser does not let the details be copied.';
  }
}

export function hideFault(): void {
  fault.value = null;
}
