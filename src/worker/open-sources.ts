import { openAddressSource } from '../terrain/bytes/address-source.ts';
import type { ByteSource } from '../terrain/bytes/byte-source.ts';
import type { Outcome, Problem } from '../units/outcome.ts';
import { blobSource } from './blob-source.ts';
import { askSize, isHeard, rangeFetcher } from './fetch-range.ts';
import type { ElevationFile } from './messages.ts';

export interface SourceOptions {
  readonly signal: AbortSignal;
  /** Hears of the bytes of all addresses as they come. */
  readonly onBytes: (count: number) => void;
}

/** A byte source for each file; a server that cannot be read from is a problem. */
export async function openSources(
  files: readonly ElevationFile[],
  { signal, onBytes }: SourceOptions,
): Promise<Outcome<readonly ByteSource[]>> {
  const sources: ByteSource[] = [];
  const problems: Problem[] = [];
  const ask = rangeFetcher(onBytes);
  for (const file of files) {
    if ('blob' in file) {
      sources.push(blobSource(file.name, file.blob));
      continue;
    }
    const opened = await openAddressSource(file.address, ask, { name: file.name, signal, askSize, isHeard });
    if (opened.ok) sources.push(opened.value);
    else problems.push(...opened.problems);
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: sources };
}
