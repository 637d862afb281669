import { signal } from '@preact/signals';
import { handleOf } from '../autosave/kept-files.ts';

/** The file on disk that a plan was opened from or written to, as it was then. */
export interface PlanLink {
  readonly file: File;
  readonly text: string;
  /** What the browser gave to write to it; null where it was only read. */
  readonly handle: FileSystemFileHandle | null;
}

/** The links of the sheets, by the sheet's id. */
export const planLinks = signal<ReadonlyMap<string, PlanLink>>(new Map());

/** The handle may have come after the file itself, when it was dropped. */
export function handleOfLink({ file, handle }: PlanLink): FileSystemFileHandle | null {
  return handle ?? handleOf(file);
}

export function setLink(sheet: string, link: PlanLink | null): void {
  const links = new Map(planLinks.value);
  if (link === null) links.delete(sheet);
  else links.set(sheet, link);
  planLinks.value = links;
}

/** What lies on disk where a plan was opened from: what was read, something else, or nothing that can be read. */
export type OnDisk =
  | { readonly kind: 'same' }
  | { readonly kind: 'changed'; readonly link: PlanLink }
  | { readonly kind: 'gone'; readonly reason: string };

/** Reads the file again; only its text counts, for a copy or a backup can touch its time. */
export async function lookOnDisk(link: PlanLink, handle: FileSystemFileHandle): Promise<OnDisk> {
  try {
    const file = await handle.getFile();
    const text = await file.text();
    return text === link.text ? { kind: 'same' } : { kind: 'changed', link: { file, text, handle } };
  } catch (error) {
    return { kind: 'gone', reason: error instanceof Error ? error.message : String(error) };
  }
}

/** A handle asks for permission in the browsers that have it; the method is not in every list of types. */
interface AskingHandle {
  requestPermission(options: { readonly mode: 'readwrite' }): Promise<PermissionState>;
}

/** Writes a text into a file as a whole: it is put in place once all of it is on disk. */
export async function writeToDisk(handle: FileSystemFileHandle, text: string): Promise<PlanLink> {
  if (canAsk(handle) && (await handle.requestPermission({ mode: 'readwrite' })) !== 'granted')
    throw new Error('the browser was not allowed to');
  const writing = await handle.createWritable();
  await writing.write(text);
  await writing.close();
  return { file: await handle.getFile(), text, handle };
}

function canAsk(handle: object): handle is AskingHandle {
  return 'requestPermission' in handle;
}
