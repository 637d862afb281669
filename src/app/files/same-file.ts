import { deletedSheet, newId, sheets } from '../state/alternatives.ts';
import { handleOfLink, type PlanLink, planLinks } from './plan-links.ts';
import { alsoOpen, savingTrouble } from './saving-state.ts';

/** What tabs tell each other of the plan files they have open. */
interface FileMessage {
  readonly tab: string;
  readonly kind: 'opened' | 'open-too' | 'closed';
  /** The tab that is answered; none when all are told. */
  readonly to: string | null;
  readonly file: { readonly name: string; readonly size: number; readonly lastModified: number } | null;
  readonly handle: FileSystemFileHandle | null;
}

const tab = newId();
const channel = new BroadcastChannel('rillwright plan files');

/** Tells the other tabs which file was opened here; those that have it as well answer. */
export function tellOpened(link: PlanLink): void {
  tell('opened', null, link);
}

function tell(kind: FileMessage['kind'], to: string | null, link: PlanLink | null): void {
  const file = link === null ? null : referenceTo(link.file);
  const handle = link === null ? null : handleOfLink(link);
  channel.postMessage({ tab, kind, to, file, handle } satisfies FileMessage);
}

function referenceTo({ name, size, lastModified }: File) {
  return { name, size, lastModified };
}

/** Says it when a plan file is open in two tabs, until one of them lets it go. */
export function watchSameFile(): void {
  channel.onmessage = ({ data }: MessageEvent<FileMessage>) => void hear(data);
  addEventListener('pagehide', () => tell('closed', null, null));
}

async function hear(message: FileMessage): Promise<void> {
  if (message.to !== null && message.to !== tab) return;
  const link = message.kind === 'closed' ? null : await sameLink(message);
  const others = new Map(alsoOpen.value);
  others.delete(message.tab);
  if (link !== null) others.set(message.tab, link.file.name);
  alsoOpen.value = others;
  if (link !== null && message.kind === 'opened') tell('open-too', message.tab, link);
}

async function sameLink(message: FileMessage): Promise<PlanLink | null> {
  for (const link of planLinks.value.values()) if (await isSame(link, message)) return link;
  return null;
}

/** The same place on disk where both tabs have a handle; else a file that goes by the same name, size and time. */
async function isSame(link: PlanLink, { file, handle }: FileMessage): Promise<boolean> {
  const own = handleOfLink(link);
  if (own !== null && handle !== null) return own.isSameEntry(handle);
  const { name, size, lastModified } = link.file;
  return file?.name === name && file.size === size && file.lastModified === lastModified;
}

/** Forgets the files of sheets that are on the desk no more, and what was said about them. */
export function followLinks(): void {
  const ids = new Set(sheets.value.map(({ id }) => id));
  if (deletedSheet.value !== null) ids.add(deletedSheet.value.sheet.id);
  const links = planLinks.value;
  const left = [...links].filter(([id]) => ids.has(id));
  if (savingTrouble.value !== null && !ids.has(savingTrouble.value.sheet)) savingTrouble.value = null;
  if (left.length === links.size) return;
  planLinks.value = new Map(left);
  if (left.length > 0) return;
  alsoOpen.value = new Map();
  tell('closed', null, null);
}
