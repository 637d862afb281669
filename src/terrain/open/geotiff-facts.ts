import { compressionName } from '../codec/block-codec.ts';
import type { OpenAnswers } from '../georeference/open-answers.ts';
import type { TerrainNote } from '../grid/ground.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import type { GeoTiffHead } from './geotiff-head.ts';
import type { GridFacts } from './opened-grid.ts';

/** What the directories of a GeoTIFF and the user's answers say about its heights. */
export function factsOf(head: GeoTiffHead, answers: OpenAnswers): GridFacts {
  const { layout, meaning, source, place, crs, band } = head;
  return {
    format: 'GeoTIFF',
    fileBytes: source.size,
    samples: sampleForm(layout),
    compression: compressionName(layout.compression),
    cellsAre: place.cellsAre,
    verticalUnit: answers.verticalUnit ?? meaning.stated.unit,
    unitEvidence: answers.verticalUnit === undefined ? meaning.stated.evidence : 'answered',
    verticalDatum: meaning.datum,
    noData: meaning.rule.noData,
    band: band + 1,
    bands: layout.samples,
    geographic: crs.geographic,
    notes: notesOf(head, answers),
  };
}

function sampleForm({ bits, kind }: RasterLayout): string {
  if (kind === 'float') return `${bits}-bit floating point`;
  return `${bits}-bit ${kind === 'int' ? 'signed' : 'unsigned'} whole numbers`;
}

function notesOf(head: GeoTiffHead, answers: OpenAnswers): readonly TerrainNote[] {
  const { meaning, images } = head;
  const notes: TerrainNote[] = [];
  if (answers.verticalUnit === undefined && meaning.stated.evidence === 'assumed') {
    notes.push({ code: 'vertical-unit-assumed', data: { unit: meaning.stated.unit } });
  }
  if (meaning.noDataUnreachable) {
    notes.push({ code: 'no-data-unreachable', data: { stated: meaning.noDataText ?? '' } });
  }
  if (images.otherPages > 0) notes.push({ code: 'other-pages', data: { count: images.otherPages } });
  return notes;
}
