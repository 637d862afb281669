import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { checkAffine } from '../georeference/affine-check.ts';
import { answeredCrs } from '../georeference/answered-crs.ts';
import { computableCrs } from '../georeference/computable-crs.ts';
import { type FileAffine, readAffine } from '../georeference/file-affine.ts';
import { crsFromKeys, statesCrs } from '../georeference/file-crs.ts';
import { type GeoKeys, readGeoKeys } from '../georeference/geo-keys.ts';
import { groundCellWidth } from '../georeference/ground-cell-width.ts';
import { FileQuestion, type OpenAnswers, type OpenOutcome } from '../georeference/open-answers.ts';
import { BlockCache } from '../tiff/block-cache.ts';
import { BlockStore } from '../tiff/block-store.ts';
import { checkBlocksInside } from '../tiff/blocks-inside.ts';
import { readGdalMetadata } from '../tiff/gdal-metadata.ts';
import { PagedBytes } from '../tiff/paged-bytes.ts';
import { readLayout } from '../tiff/raster-layout.ts';
import { checkSupport } from '../tiff/sample-support.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { readImages } from '../tiff/tiff-images.ts';
import { TAG } from '../tiff/tiff-tags.ts';
import type { VoidMask } from '../tiff/void-mask.ts';
import { chooseBand } from './band-choice.ts';
import { factsOf } from './geotiff-facts.ts';
import { gridOf } from './geotiff-grid.ts';
import type { GeoTiffHead } from './geotiff-head.ts';
import { readHeightMeaning } from './height-meaning.ts';
import { openOutcome } from './open-failure.ts';
import { openMasks, type StoreMaker } from './open-masks.ts';
import { openOverviews } from './open-overviews.ts';
import type { OpenedGrid } from './opened-grid.ts';
import { questionFromValues } from './value-questions.ts';
import { surveyValues } from './value-survey.ts';

/** Bytes of unpacked blocks kept where the caller names no budget. */
export const DEFAULT_MEMORY = 128 * 1024 * 1024;

/**
 * Opens a GeoTIFF with elevations.
 *
 * Everything in its directories is checked before a cell is read; then a few blocks are looked at for numbers that cannot
 * be heights. Answers the grid, or why it cannot be read, or what only the user can say. Rejects only when aborted.
 */
export function openGeoTiff(source: ByteSource, answers: OpenAnswers = {}): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, () => open(source, answers), answers.signal);
}

async function open(source: ByteSource, answers: OpenAnswers): Promise<OpenedGrid> {
  const head = await readHead(source, answers);
  const { layout, images, band, meaning } = head;
  const memory = answers.memory ?? DEFAULT_MEMORY;
  const { littleEndian } = images;
  const cache = new BlockCache(memory);
  const stores: StoreMaker = (name, form) =>
    new BlockStore({ name, source, layout: form.layout, littleEndian, band: form.band, rule: form.rule, cache });
  const store = stores('full', { layout, band, rule: meaning.rule });
  const masks = await openMasks(head, stores);
  const mask = masks.of(layout);
  await lookAtValues(head, { store, mask }, answers);
  const overviews = await openOverviews(head, { stores, masks, memory });
  const grid = gridOf(head, { store, layout, mask, affine: head.place.affine, overviews, memory });
  return Object.assign(grid, { facts: factsOf(head, answers) });
}

async function readHead(source: ByteSource, answers: OpenAnswers): Promise<GeoTiffHead> {
  const images = await readImages(new PagedBytes(source));
  const { main } = images;
  const layout = await readLayout(main);
  checkSupport(layout, images.littleEndian);
  await checkBlocksInside(layout, source.size);
  const keys = await readGeoKeys(main);
  const metadata = readGdalMetadata(await main.text(TAG.GdalMetadata));
  const band = await chooseBand(source.name, main, { layout, metadata, answers });
  const meaning = await readHeightMeaning(main, { layout, keys, metadata, band, answers });
  const place = await readPlace(main, keys, source.name, answers);
  const stated = answers.crs === undefined && statesCrs(keys);
  const reference = stated ? crsFromKeys(keys).reference : answeredCrs(source.name, { ...layout, ...place }, answers);
  const crs = await computableCrs(reference);
  checkAffine(place.affine, layout, crs.geographic);
  return { source, images, layout, keys, place, crs, band, meaning };
}

/** A negative Y scale is honoured or taken for a slip as the user says; nothing is guessed. */
async function readPlace(main: TagValues, keys: GeoKeys, file: string, answers: OpenAnswers): Promise<FileAffine> {
  const place = await readAffine(main, keys, { scaleYWithoutSign: answers.rowsRun === 'south' });
  if (!place.negativeScaleY || answers.rowsRun !== undefined) return place;
  throw new FileQuestion({ kind: 'question', about: 'rowsRun', file });
}

async function lookAtValues(
  head: GeoTiffHead,
  read: { store: BlockStore; mask: VoidMask | null },
  answers: OpenAnswers,
): Promise<void> {
  const { source, meaning, crs, place, layout } = head;
  const survey = await surveyValues(read.store, { rule: meaning.rule, mask: read.mask, signal: answers.signal });
  if (survey.complete && survey.valid === 0) {
    refuse({ code: 'no-heights', where: '', found: 'nodata in every cell', expected: 'at least one height' });
  }
  const question = questionFromValues(survey, {
    file: source.name,
    answers,
    stated: meaning.stated,
    gridInFeet: crs.gridInFeet,
    cellMetres: groundCellWidth(place.affine, layout, crs),
    noDataText: meaning.noDataText,
    scale: meaning.scale,
    offset: meaning.offset,
  });
  if (question !== null) throw new FileQuestion(question);
}
