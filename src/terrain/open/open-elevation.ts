import type { ByteSource } from '../bytes/byte-source.ts';
import type { OpenAnswers, OpenOutcome } from '../georeference/open-answers.ts';
import { looksLikeAsciiGrid } from './ascii-header.ts';
import { openAsciiGrid } from './open-ascii-grid.ts';
import { openOutcome } from './open-failure.ts';
import { openGeoTiff } from './open-geotiff.ts';
import type { OpenedGrid } from './opened-grid.ts';

const HEAD_BYTES = 64;

/** Opens an elevation file by what it holds, whatever its name: GeoTIFF or ESRI ASCII grid. */
export async function openElevation(source: ByteSource, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  const length = Math.min(HEAD_BYTES, source.size);
  const head = await openOutcome(
    source.name,
    () => source.read([{ offset: 0, length }], answers.signal),
    answers.signal,
  );
  if (head.kind !== 'opened') return head;
  const [bytes = new Uint8Array(0)] = head.value;
  return looksLikeAsciiGrid(bytes) ? openAsciiGrid(source, answers) : openGeoTiff(source, answers);
}
