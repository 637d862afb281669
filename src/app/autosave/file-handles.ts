import { referenceOf } from './kept-files.ts';

/** An item that is dropped can give a handle in the browsers that have it; the method is not in every list of types. */
interface ItemWithHandle {
  getAsFileSystemHandle(): Promise<FileSystemHandle | null>;
}

const handles = new Map<string, FileSystemFileHandle>();

/** Listens to what is dropped on the page and remembers the handles, so that a large file can be opened again later. */
export function rememberDroppedHandles(): void {
  addEventListener('drop', ({ dataTransfer }) => {
    for (const item of dataTransfer?.items ?? []) {
      const file = item.kind === 'file' ? item.getAsFile() : null;
      // Asked for at once: a handle is given only while the drop is under way.
      if (file !== null && givesHandle(item)) void remember(file, item.getAsFileSystemHandle());
    }
  });
}

export function handleOf(file: File): FileSystemFileHandle | null {
  return handles.get(keyOf(file)) ?? null;
}

async function remember(file: File, given: Promise<FileSystemHandle | null>): Promise<void> {
  const handle = await given.catch(() => null);
  if (handle instanceof FileSystemFileHandle) handles.set(keyOf(file), handle);
}

function givesHandle(item: object): item is ItemWithHandle {
  return 'getAsFileSystemHandle' in item;
}

function keyOf(file: File): string {
  return JSON.stringify(referenceOf(file));
}
