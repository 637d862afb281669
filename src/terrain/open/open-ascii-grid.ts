import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import type { OpenAnswers, OpenOutcome } from '../georeference/open-answers.ts';
import { type AsciiHeader, readAsciiHeader } from './ascii-header.ts';
import { AsciiNumbers } from './ascii-numbers.ts';
import type { Beside } from './beside.ts';
import { openOutcome } from './open-failure.ts';
import { DEFAULT_MEMORY } from './open-geotiff.ts';
import { crsOfText, openInMemory } from './open-in-memory.ts';
import type { OpenedGrid } from './opened-grid.ts';

const HEAD_BYTES = 4096;
const PIECE_BYTES = 1024 * 1024;
/** Bytes in memory of a cell: a height and whether it is known. */
const CELL_BYTES = 9;

/**
 * Opens an ESRI ASCII grid. The whole of it is held in memory, since its rows have no fixed places in the file; one that is
 * too large for the budget is refused. Such a file says nothing about its CRS: a projection file beside it does, or the user is
 * asked for its EPSG code.
 */
export function openAsciiGrid(
  source: ByteSource,
  answers: OpenAnswers = {},
  beside: Beside = {},
): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, () => open(source, answers, beside), answers.signal);
}

async function open(source: ByteSource, answers: OpenAnswers, beside: Beside): Promise<OpenedGrid> {
  const [head] = await source.read([{ offset: 0, length: Math.min(HEAD_BYTES, source.size) }], answers.signal);
  const header = readAsciiHeader(head ?? new Uint8Array(0));
  checkSize(header, source, answers);
  // Asked before the heights are read.
  const crs = await crsOfText(source.name, header, { answers, beside });
  const values = await readValues(source, header, answers.signal);
  return openInMemory(source, { ...header, values, crs, format: 'ESRI ASCII grid' }, answers);
}

function checkSize(header: AsciiHeader, source: ByteSource, answers: OpenAnswers): void {
  const cells = header.columns * header.rows;
  const most = Math.floor((answers.memory ?? DEFAULT_MEMORY) / CELL_BYTES);
  // A value takes a figure and a blank at least, the last one a figure.
  if (2 * cells - 1 > source.size - header.bodyAt) {
    refuse({ code: 'short-file', where: '', found: `${source.size} bytes`, expected: `${cells} heights` });
  }
  if (cells > most) {
    refuse({
      code: 'memory',
      where: '',
      found: `${cells} cells`,
      expected: `at most ${most} cells in this format; a GeoTIFF may be larger`,
    });
  }
}

async function readValues(source: ByteSource, header: AsciiHeader, signal?: AbortSignal): Promise<Float64Array> {
  const values = new Float64Array(header.columns * header.rows);
  const numbers = new AsciiNumbers((value, index) => {
    if (index >= values.length) {
      refuse({ code: 'long-file', where: '', found: 'more heights', expected: `${values.length} heights` });
    }
    values[index] = value;
  });
  for (let offset = header.bodyAt; offset < source.size; offset += PIECE_BYTES) {
    const length = Math.min(PIECE_BYTES, source.size - offset);
    const [piece] = await source.read([{ offset, length }], signal);
    signal?.throwIfAborted();
    numbers.add(piece ?? new Uint8Array(0));
  }
  numbers.end();
  if (numbers.count === values.length) return values;
  return refuse({
    code: 'short-file',
    where: '',
    found: `${numbers.count} heights`,
    expected: `${values.length} heights`,
  });
}
