import { computed, signal } from '@preact/signals';
import { isAddress } from '../../terrain/bytes/address-name.ts';
import { plan } from './store.ts';

/** The dialog for elevation by address: closed, or open with what is typed in it. */
export const addressDialog = signal<{ readonly text: string } | null>(null);

/** Names or addresses of the files that the open terrain was made from. */
export const openedFrom = signal<readonly string[]>([]);

/** Addresses that the user said not to be asked now. */
export const leftAlone = signal('');

/** The addresses that the plan names for its heights while they are not open; the page asks nothing there by itself. */
export const waitingAddresses = computed<readonly string[]>(() => {
  const files = plan.value.terrain?.files ?? [];
  const open = new Set(openedFrom.value);
  const waiting = files.length > 0 && files.every(isAddress) && !files.every((file) => open.has(file));
  return waiting && files.join('\n') !== leftAlone.value ? files : [];
});
