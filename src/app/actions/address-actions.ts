import { typedAddresses } from '../client/typed-addresses.ts';
import { addressDialog, leftAlone, waitingAddresses } from '../state/address-state.ts';
import { announcement, plan, terrainFile } from '../state/store.ts';
import { openTerrainFiles } from './terrain-actions.ts';

export function askForAddress(): void {
  terrainFile.value = { kind: 'idle' };
  addressDialog.value = { text: '' };
}

export function typeAddresses(text: string): void {
  addressDialog.value = { text };
}

/** Leaves the dialog; what is under way is stopped. */
export function leaveAddresses(): void {
  const state = terrainFile.value;
  if (state.kind === 'opening') state.stop.abort();
  if (state.kind === 'refused') terrainFile.value = { kind: 'idle' };
  addressDialog.value = null;
}

/** Asks at the typed addresses; the dialog stays for a refusal and goes for a question, which has a dialog of its own. */
export async function openAddresses(text: string): Promise<void> {
  const { files, problems } = typedAddresses(text, location.origin);
  if (files.length === 0 || problems.length > 0) return;
  const opened = await openTerrainFiles(files);
  if (opened) announcement.value = `Opened: ${files.map(({ name }) => name).join(', ')}`;
  if (opened || terrainFile.value.kind === 'question') addressDialog.value = null;
}

/** Opens what the plan names, once the user has said so; the dialog shows how it goes. */
export function openWaiting(): void {
  const text = waitingAddresses.value.join('\n');
  terrainFile.value = { kind: 'idle' };
  addressDialog.value = { text };
  void openAddresses(text);
}

export function leaveWaiting(): void {
  leftAlone.value = (plan.value.terrain?.files ?? []).join('\n');
}
