import type { ByteSource } from '../bytes/byte-source.ts';
import { FileRefusal, refuse } from '../bytes/file-refusal.ts';
import { compressionName } from '../codec/block-codec.ts';
import { checkAffine } from '../georeference/affine-check.ts';
import { answeredCrs, type Extent } from '../georeference/answered-crs.ts';
import { type ComputableCrs, computableCrs, groundCellWidth } from '../georeference/computable-crs.ts';
import { type FileAffine, isPlaced, readAffine } from '../georeference/file-affine.ts';
import { crsFromKeys, statesCrs } from '../georeference/file-crs.ts';
import { type GeoKeys, readGeoKeys } from '../georeference/geo-keys.ts';
import { loGrid } from '../georeference/lo-grid.ts';
import { FileQuestion, type OpenAnswers, type OpenOutcome, type UnitEvidence } from '../georeference/open-answers.ts';
import type { Affine, ElevationGrid } from '../grid/grid.ts';
import type { TerrainNote } from '../grid/ground.ts';
import { BlockCache } from '../tiff/block-cache.ts';
import { BlockStore } from '../tiff/block-store.ts';
import { checkBlocksInside } from '../tiff/blocks-inside.ts';
import { readGdalMetadata } from '../tiff/gdal-metadata.ts';
import { PagedBytes } from '../tiff/paged-bytes.ts';
import { type RasterLayout, readLayout } from '../tiff/raster-layout.ts';
import { checkSupport } from '../tiff/sample-support.ts';
import { StoredGrid } from '../tiff/stored-grid.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { readImages } from '../tiff/tiff-images.ts';
import { TAG } from '../tiff/tiff-tags.ts';
import { MASK_RULE, VoidMask } from '../tiff/void-mask.ts';
import { chooseBand } from './band-choice.ts';
import { affineBeside, type Beside, statedBeside } from './beside.ts';
import type { GeoTiffHead } from './geotiff-head.ts';
import { type HeightMeaning, readHeightMeaning } from './height-meaning.ts';
import { openOutcome } from './open-failure.ts';
import { checkMask, type FileMasks, openMasks, type StoreMaker } from './open-masks.ts';
import { unitAssumed } from './open-notes.ts';
import type { GridFacts, OpenedGrid } from './opened-grid.ts';
import { questionFromValues, unitEvidence, type ValueContext } from './value-questions.ts';
import { surveyValues } from './value-survey.ts';

/** Bytes of a window's cell: a height and whether it is known. */
const WINDOW_CELL_BYTES = 9;

/** One directory of a GeoTIFF as a grid. */
function gridOf(
  head: GeoTiffHead,
  parts: {
    store: BlockStore;
    layout: RasterLayout;
    mask: VoidMask | null;
    affine: Affine;
    overviews: readonly ElevationGrid[];
    memory: number;
  },
): StoredGrid {
  const { factor, add } = head.meaning.rule;
  const whole = head.layout.kind !== 'float';
  const narrow = factor === 1 && add === 0 && (head.layout.bits < 32 || (!whole && head.layout.bits === 32));
  return new StoredGrid({
    name: head.source.name,
    columns: parts.layout.columns,
    rows: parts.layout.rows,
    affine: parts.affine,
    crs: head.crs.reference,
    overviews: parts.overviews,
    quantum: whole ? Math.abs(factor) : 0,
    store: parts.store,
    rule: head.meaning.rule,
    mask: parts.mask,
    wide: !narrow,
    mostCells: Math.floor(parts.memory / WINDOW_CELL_BYTES),
  });
}

/** Bytes of unpacked blocks kept where the caller names no budget. */
export const DEFAULT_MEMORY = 128 * 1024 * 1024;

/**
 * Opens a GeoTIFF with elevations.
 *
 * Everything in its directories is checked before a cell is read; then a few blocks are looked at for numbers that cannot
 * be heights. Answers the grid, or why it cannot be read, or what only the user can say. Rejects only when aborted.
 */
export function openGeoTiff(
  source: ByteSource,
  answers: OpenAnswers = {},
  beside: Beside = {},
): Promise<OpenOutcome<OpenedGrid>> {
  return openOutcome(source.name, () => open(source, answers, beside), answers.signal);
}

async function open(source: ByteSource, answers: OpenAnswers, beside: Beside): Promise<OpenedGrid> {
  const head = await readHead(source, answers, beside);
  const { layout, images, band, meaning } = head;
  const memory = answers.memory ?? DEFAULT_MEMORY;
  const { littleEndian } = images;
  const cache = new BlockCache(memory);
  const stores: StoreMaker = (name, form) =>
    new BlockStore({ name, source, layout: form.layout, littleEndian, band: form.band, rule: form.rule, cache });
  const store = stores('full', { layout, band, rule: meaning.rule });
  const masks = await openMasks(head, stores);
  const mask = masks.of(layout) ?? (await maskBeside(beside, layout, cache));
  const evidence = await lookAtValues(head, { store, mask }, answers);
  const overviews = await openOverviews(head, { stores, masks, memory });
  const grid = gridOf(head, { store, layout, mask, affine: head.place.affine, overviews, memory });
  return Object.assign(grid, { facts: factsOf(head, answers, evidence) });
}

async function readHead(source: ByteSource, answers: OpenAnswers, beside: Beside): Promise<GeoTiffHead> {
  const images = await readImages(new PagedBytes(source));
  const { main } = images;
  const layout = await readLayout(main);
  checkSupport(layout, images.littleEndian);
  await checkBlocksInside(layout, source.size);
  const keys = await readGeoKeys(main);
  const metadata = readGdalMetadata(await main.text(TAG.GdalMetadata));
  const band = await chooseBand(source.name, main, { layout, metadata, answers });
  const meaning = await readHeightMeaning(main, { layout, keys, metadata, band, answers });
  const place = await readPlace(main, keys, { file: source.name, answers, beside });
  const crs = await crsOf(keys, { file: source.name, extent: { ...layout, ...place }, answers, beside });
  checkAffine(place.affine, layout, crs.geographic);
  return { source, images, layout, keys, place, crs, band, meaning };
}

/**
 * The CRS that the file states; the one that the user named where it states none, where its own cannot be computed, or where
 * the user's is to stand instead.
 */
async function crsOf(
  keys: GeoKeys,
  form: { file: string; extent: Extent; answers: OpenAnswers; beside: Beside },
): Promise<ComputableCrs> {
  const { file, extent, answers, beside } = form;
  const answered = answers.crs !== undefined;
  if (answered && answers.instead?.includes('crs')) return computableCrs(answeredCrs(file, extent, answers));
  if (!statesCrs(keys)) return computableCrs((await statedBeside(beside)) ?? answeredCrs(file, extent, answers));
  try {
    const { reference } = await crsFromKeys(keys);
    return await computableCrs(loGrid(reference, extent.affine));
  } catch (error) {
    if (!(error instanceof FileRefusal)) throw error;
    if (answered) return computableCrs(answeredCrs(file, extent, answers));
    const { problem } = error;
    throw new FileRefusal({ ...problem, expected: `${problem.expected}, ${OR_ITS_CODE}` });
  }
}

const OR_ITS_CODE = 'or the EPSG code of its coordinate reference system as an answer';

/** A negative Y scale is honoured or taken for a slip as the user says; nothing is guessed. */
async function readPlace(
  main: TagValues,
  keys: GeoKeys,
  { file, answers, beside }: { file: string; answers: OpenAnswers; beside: Beside },
): Promise<FileAffine> {
  const world = await affineBeside(beside);
  if (world !== null && !(await isPlaced(main))) return { affine: world, cellsAre: 'area', negativeScaleY: false };
  const place = await readAffine(main, keys, { scaleYWithoutSign: answers.rowsRun === 'south' });
  if (!place.negativeScaleY || answers.rowsRun !== undefined) return place;
  throw new FileQuestion({ kind: 'question', about: 'rowsRun', file });
}

/** A mask that lies beside, of the size of the heights. Source: GDAL, "Raster masks", files with the ending .msk. */
async function maskBeside({ mask }: Beside, layout: RasterLayout, cache: BlockCache): Promise<VoidMask | null> {
  if (mask === undefined) return null;
  const { main, littleEndian } = await readImages(new PagedBytes(mask));
  const own = await readLayout(main);
  checkMask(own);
  await checkBlocksInside(own, mask.size);
  if (own.columns !== layout.columns || own.rows !== layout.rows) {
    const found = `${own.columns} × ${own.rows} cells`;
    refuse({ code: 'mask', where: mask.name, found, expected: `${layout.columns} × ${layout.rows}, as the heights` });
  }
  const store = new BlockStore({
    name: 'mask beside',
    source: mask,
    layout: own,
    littleEndian,
    band: 0,
    rule: MASK_RULE,
    cache,
  });
  return new VoidMask(store, own);
}

async function lookAtValues(
  head: GeoTiffHead,
  read: { store: BlockStore; mask: VoidMask | null },
  answers: OpenAnswers,
): Promise<UnitEvidence> {
  const { source, meaning, crs, place, layout } = head;
  const survey = await surveyValues(read.store, { rule: meaning.rule, mask: read.mask, signal: answers.signal });
  if (survey.complete && survey.valid === 0) {
    refuse({ code: 'no-heights', where: '', found: 'nodata in every cell', expected: 'at least one height' });
  }
  const context: ValueContext = {
    file: source.name,
    answers,
    stated: meaning.stated,
    gridUnit: crs.gridUnit,
    cellMetres: groundCellWidth(place.affine, layout, crs),
    noDataText: meaning.noDataText,
    scale: meaning.scale,
    offset: meaning.offset,
    maybePicture: maybePicture(head),
  };
  const question = questionFromValues(survey, context);
  if (question !== null) throw new FileQuestion(question);
  return unitEvidence(survey, context);
}

function maybePicture({ layout, meaning }: GeoTiffHead): boolean {
  if (layout.bits !== 8 || layout.kind !== 'uint') return false;
  return meaning.stated.evidence === 'assumed' && meaning.scale === 1 && meaning.offset === 0;
}

/** The reduced copies inside a file as grids of their own over the same area, finest first. */
async function openOverviews(
  head: GeoTiffHead,
  form: { stores: StoreMaker; masks: FileMasks; memory: number },
): Promise<readonly ElevationGrid[]> {
  const layouts: RasterLayout[] = [];
  for (const tags of head.images.reduced) {
    const layout = await readLayout(tags);
    if (!isCopyOf(layout, head.layout)) continue;
    checkSupport(layout, head.images.littleEndian);
    await checkBlocksInside(layout, head.source.size);
    layouts.push(layout);
  }
  layouts.sort((p, q) => q.columns - p.columns);
  const { band, meaning } = head;
  return layouts.map((layout, i) => {
    const affine = stretched(head.place.affine, head.layout.columns / layout.columns, head.layout.rows / layout.rows);
    const store = form.stores(`overview ${i}`, { layout, band, rule: meaning.rule });
    const mask = form.masks.of(layout);
    return gridOf(head, { store, layout, mask, affine, overviews: [], memory: form.memory });
  });
}

/** A reduced copy holds the same kind of numbers; other small images, such as previews, are left alone. */
function isCopyOf(layout: RasterLayout, full: RasterLayout): boolean {
  const { bits, kind, samples } = layout;
  if (bits !== full.bits || kind !== full.kind || samples !== full.samples) return false;
  return layout.columns < full.columns || layout.rows < full.rows;
}

/** The affine of larger cells over the same area. */
function stretched({ a, b, c, d, e, f }: Affine, across: number, down: number): Affine {
  return { a: a * across, b: b * down, c, d: d * across, e: e * down, f };
}

/** What the directories of a GeoTIFF and the user's answers say about its heights. */
function factsOf(head: GeoTiffHead, answers: OpenAnswers, evidence: UnitEvidence): GridFacts {
  const { layout, meaning, source, place, crs, band } = head;
  return {
    format: 'GeoTIFF',
    fileBytes: source.size,
    samples: sampleForm(layout),
    compression: compressionName(layout.compression),
    cellsAre: place.cellsAre,
    verticalUnit: meaning.unit,
    unitEvidence: isAnswered(meaning, answers) ? 'answered' : meaning.stated.evidence,
    verticalDatum: meaning.datum,
    noData: meaning.rule.noData,
    band: band + 1,
    bands: layout.samples,
    geographic: crs.geographic,
    geoKeys: head.keys.written,
    statesCrs: statesCrs(head.keys) && !(answers.crs !== undefined && answers.instead?.includes('crs')),
    notes: notesOf(head, answers, evidence),
  };
}

function sampleForm({ bits, kind }: RasterLayout): string {
  if (kind === 'float') return `${bits}-bit floating point`;
  return `${bits}-bit ${kind === 'int' ? 'signed' : 'unsigned'} whole numbers`;
}

/** Whether the user's unit stands. */
function isAnswered({ stated }: HeightMeaning, { verticalUnit, instead }: OpenAnswers): boolean {
  return verticalUnit !== undefined && (stated.evidence === 'assumed' || instead?.includes('verticalUnit') === true);
}

function notesOf(head: GeoTiffHead, answers: OpenAnswers, evidence: UnitEvidence): readonly TerrainNote[] {
  const { meaning, images, source } = head;
  const file = source.name;
  const notes: TerrainNote[] = [];
  if (answers.verticalUnit === undefined && meaning.stated.evidence === 'assumed') {
    notes.push(unitAssumed(file, evidence));
  }
  notes.push(...notTaken(head, answers));
  if (meaning.noDataUnreachable) {
    notes.push({ code: 'no-data-unreachable', data: { stated: meaning.noDataText ?? '' } });
  }
  if (images.otherPages > 0) notes.push({ code: 'other-pages', data: { count: images.otherPages } });
  return notes;
}

/** Answers that the file's own words stand before, told so that nobody trusts in them. */
function notTaken(head: GeoTiffHead, answers: OpenAnswers): TerrainNote[] {
  const { meaning, crs, source, keys } = head;
  const notes: TerrainNote[] = [];
  const add = (about: string, answered: string, stated: string): void => {
    if (answered !== stated)
      notes.push({ code: 'answer-not-taken', data: { file: source.name, about, answered, stated } });
  };
  if (answers.verticalUnit !== undefined && !isAnswered(meaning, answers)) {
    add('unit', answers.verticalUnit, meaning.stated.unit);
  }
  const { reference } = crs;
  if (answers.crs !== undefined && statesCrs(keys) && !answers.instead?.includes('crs')) {
    add('crs', `EPSG:${answers.crs}`, reference.kind === 'epsg' ? `EPSG:${reference.code}` : reference.title);
  }
  return notes;
}
