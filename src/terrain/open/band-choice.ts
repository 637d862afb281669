import { refuse } from '../bytes/file-refusal.ts';
import { FileQuestion, type OpenAnswers } from '../georeference/open-answers.ts';
import type { GdalMetadata } from '../tiff/gdal-metadata.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** Photometric interpretations that make a picture. Source: TIFF 6.0, Adobe, 1992. */
const PICTURES: Readonly<Record<number, string>> = {
  2: 'red, green and blue',
  3: 'colours of a palette',
  5: 'printing inks',
  6: 'luma and chroma',
  8: 'CIE L*a*b* colours',
};

/** Kinds of extra samples that say how opaque a cell is. Source: TIFF 6.0, Adobe, 1992, section 18. */
const OPACITIES = [1, 2];

/** The band that says which cells have heights, counted from 0; null where there is none. */
export async function opacityBand(tags: TagValues, layout: RasterLayout): Promise<number | null> {
  const extra = (await tags.numbers(TAG.ExtraSamples)) ?? [];
  const at = extra.findIndex((kind) => OPACITIES.includes(kind));
  return at < 0 || extra.length > layout.samples ? null : layout.samples - extra.length + at;
}

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
  const opacity = await opacityBand(tags, layout);
  const bands = Array.from({ length: layout.samples }, (_, i) => ({
    band: i + 1,
    title: metadata.item('DESCRIPTION', i) ?? '',
  })).filter(({ band }) => band - 1 !== opacity);
  const [only] = bands;
  if (bands.length === 1 && only !== undefined) return only.band - 1;
  throw new FileQuestion({ kind: 'question', about: 'band', file, bands });
}
