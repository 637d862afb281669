import type { ElevationInput } from '../client/elevation-input.ts';
import type { FilesToKeep } from './keeper.ts';
import { type FileReference, isRecord, isReference } from './kept-work.ts';

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

/** Elevation is kept in the browser up to this many bytes; larger files are opened again from where they lie. */
export const MOST_KEPT_BYTES = 64 * 1024 * 1024;

/** A file that can be opened again: by its handle after the user allows it, by its bytes, or by choosing it again. */
export interface KeptFile {
  readonly reference: FileReference;
  readonly handle: FileSystemFileHandle | null;
  readonly bytes: Blob | null;
}

export function referenceOf(file: ElevationInput): FileReference {
  if ('address' in file) return { name: file.name, size: 0, lastModified: 0, address: file.address };
  const { name, size, lastModified } = file;
  return { name, size, lastModified };
}

/** What to keep of files: handles where the browser gave some; bytes for the others while all of them are small. */
export function filesToKeep(
  files: readonly ElevationInput[],
  handleOf: (file: File) => FileSystemFileHandle | null,
): FilesToKeep {
  const bytes = files.reduce((sum, file) => sum + ('address' in file ? 0 : file.size), 0);
  const small = bytes <= MOST_KEPT_BYTES;
  const kept = files.map((file): KeptFile => {
    if ('address' in file) return { reference: referenceOf(file), handle: null, bytes: null };
    const handle = handleOf(file);
    return { reference: referenceOf(file), handle, bytes: small ? file : null };
  });
  return { whole: kept, bare: kept.map((each): KeptFile => ({ ...each, bytes: null })) };
}

/** Kept files as they were found; none when what was found is something else. */
export function readKeptFiles(found: unknown): readonly KeptFile[] {
  if (!Array.isArray(found)) return [];
  return found.flatMap((each: unknown) => {
    if (!isRecord(each) || !isReference(each.reference)) return [];
    const handle = isHandle(each.handle) ? each.handle : null;
    return [{ reference: each.reference, handle, bytes: each.bytes instanceof Blob ? each.bytes : null }];
  });
}

/** How much of a work's elevation is kept as bytes, and how many files are found again otherwise or have to be chosen. */
export interface KeptTerrain {
  readonly bytes: number;
  /** Opened again from where they lie, on this disk or at an address. */
  readonly elsewhere: number;
  /** Known by name only. */
  readonly named: number;
}

/** What of the elevation files of a work is kept; a file of which nothing was kept is known by its name. */
export function terrainKept(references: readonly FileReference[], kept: readonly KeptFile[]): KeptTerrain {
  const bytes = kept.reduce((sum, file) => sum + (file.bytes?.size ?? 0), 0);
  const whole = kept.filter((file) => file.bytes !== null).length;
  const elsewhere = kept.filter(
    ({ bytes: body, handle, reference }) => body === null && (handle !== null || reference.address !== undefined),
  ).length;
  return { bytes, elsewhere, named: Math.max(0, references.length - whole - elsewhere) };
}

function isHandle(found: unknown): found is FileSystemFileHandle {
  return typeof FileSystemFileHandle === 'function' && found instanceof FileSystemFileHandle;
}

/** A handle asks for permission in the browsers that have it; the method is not in every list of types. */
interface AskingHandle {
  requestPermission(options: { readonly mode: 'read' }): Promise<PermissionState>;
}

/** The file itself; null when it has to be chosen again, or lies at an address, which is asked only when the user says so. A file that has changed on disk is another file. */
export async function fileAgain({ reference, handle, bytes }: KeptFile): Promise<File | null> {
  const { name, lastModified } = reference;
  if (bytes !== null) return new File([bytes], name, { lastModified });
  if (handle === null) return null;
  try {
    if (canAsk(handle) && (await handle.requestPermission({ mode: 'read' })) !== 'granted') return null;
    const file = await handle.getFile();
    return file.size === reference.size && file.lastModified === lastModified ? file : null;
  } catch {
    return null;
  }
}

function canAsk(handle: object): handle is AskingHandle {
  return 'requestPermission' in handle;
}
