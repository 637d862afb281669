import type { ByteSource } from '../bytes/byte-source.ts';
import type { OpenAnswers, OpenOutcome } from '../georeference/open-answers.ts';
import { looksLikeAsciiGrid } from './ascii-header.ts';
import type { Beside } from './beside.ts';
import { refuseNamedFormat } from './named-formats.ts';
import { openAsciiGrid } from './open-ascii-grid.ts';
import { openOutcome } from './open-failure.ts';
import { openGeoTiff } from './open-geotiff.ts';
import { isHgtName, openHgt } from './open-hgt.ts';
import { looksLikeXyz, openXyz } from './open-xyz.ts';
import { looksLikeZip, openZip } from './open-zip.ts';
import type { OpenedGrid } from './opened-grid.ts';

const HEAD_BYTES = 512;

/** Opens an elevation file by what it holds, whatever its name but for .hgt, which holds nothing but heights. */
export async function openElevation(
  source: ByteSource,
  answers: OpenAnswers = {},
  beside: Beside = {},
): Promise<OpenOutcome<OpenedGrid>> {
  const { signal } = answers;
  const length = Math.min(HEAD_BYTES, source.size);
  const head = await openOutcome(source.name, () => source.read([{ offset: 0, length }], signal), signal);
  if (head.kind !== 'opened') return head;
  const [bytes = new Uint8Array(0)] = head.value;
  if (looksLikeZip(bytes)) return openZip(source, answers, (inner, own) => openElevation(inner, answers, own));
  const named = await openOutcome(source.name, async () => refuseNamedFormat(bytes), signal);
  if (named.kind !== 'opened') return named;
  if (isHgtName(source.name)) return openHgt(source, answers);
  if (looksLikeAsciiGrid(bytes)) return openAsciiGrid(source, answers, beside);
  return looksLikeXyz(bytes) ? openXyz(source, answers, beside) : openGeoTiff(source, answers, beside);
}
