import { refuse } from './file-refusal.ts';
import type { GdalMetadata } from './gdal-metadata.ts';
import { FileQuestion, type OpenAnswers } from './open-answers.ts';
import type { RasterLayout } from './raster-layout.ts';
import type { TagValues } from './tag-values.ts';
import { TAG } from './tiff-tags.ts';

/** Photometric interpretations that make a picture. Source: TIFF 6.0, Adobe, 1992. */
const PICTURES: Readonly<Record<number, string>> = {
  2: 'red, green and blue',
  3: 'colours of a palette',
  5: 'printing inks',
  6: 'luma and chroma',
  8: 'CIE L*a*b* colours',
};

/** The band with the heights, counted from 0: the only one, or the one that the user named. */
export async function chooseBand(
  file: string,
  tags: TagValues,
  form: { layout: RasterLayout; metadata: GdalMetadata; answers: OpenAnswers },
): Promise<number> {
  const { layout, metadata, answers } = form;
  const picture = PICTURES[await tags.number(TAG.PhotometricInterpretation, 1)];
  if (picture !== undefined && layout.bits === 8) {
    refuse({ code: 'picture', where: '', found: `a picture (${picture})`, expected: 'elevations' });
  }
  if (answers.band !== undefined) {
    if (Number.isInteger(answers.band) && answers.band >= 1 && answers.band <= layout.samples) return answers.band - 1;
    refuse({ code: 'band', where: '', found: `band ${answers.band}`, expected: `1 to ${layout.samples}` });
  }
  if (layout.samples === 1) return 0;
  const bands = Array.from({ length: layout.samples }, (_, i) => ({
    band: i + 1,
    title: metadata.item('DESCRIPTION', i) ?? '',
  }));
  throw new FileQuestion({ kind: 'question', about: 'band', file, bands });
}
