import { OWN_CONSTANTS } from '../../evaluation/site/heights.ts';
import { accuracyClasses } from '../../terrain/accuracy/height-accuracy.ts';
import type { TerrainNote, TerrainNoteCode } from '../../terrain/grid/terrain-note.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { fromSi } from '../../units/unit.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { spelled } from './spelling.ts';

/** What a sentence takes from a note's data. */
interface NoteWords {
  readonly text: (name: string) => string;
  readonly quantity: (name: string, kind: QuantityKind) => string;
  /** A share or a slope in per cent. */
  readonly percent: (name: string) => string;
  readonly has: (name: string) => boolean;
  /** An accuracy class by its title. */
  readonly className: (name: string) => string;
}

const SENTENCES: Readonly<Record<TerrainNoteCode, (words: NoteWords) => string>> = {
  'accuracy-inferred': (w) =>
    `How far its heights are trusted was inferred from ${BECAUSE[w.text('because')] ?? w.text('because')}: ${w.className('class')}. Choose another class under Settings if you know better.`,
  'surface-model': () =>
    'It shows the tops of trees and roofs, not the ground. Under trees its heights are too high, by metres; level there on site.',
  'surface-unknown': () =>
    'It is not known whether it shows bare ground or the tops of trees and roofs. Find out before you trust heights under trees.',
  'height-steps': (w) =>
    `Its heights come in steps of ${w.quantity('step_m', 'height')}; a smaller fall does not show.`,
  'cells-flatten': (w) =>
    `Each of its cells averages ${w.quantity('cell_m', 'length')} of ground: gullies read too high and ridges too low.`,
  'several-files': (w) => `It is put together from ${w.text('files')} files.`,
  'datum-unstated': (w) =>
    `${w.text('files')} does not say what its heights are counted from, the others do. A difference across the two may be wrong by metres.`,
  seam: (w) =>
    `This line crosses from ${w.text('from')} to ${w.text('to')} ${w.quantity('at_m', 'length')} along${
      w.has('step_m') ? `, where the two differ by ${w.quantity('step_m', 'height')}` : ''
    }. Level across the seam on site.`,
  'datum-shift': (w) =>
    `Placing ${w.text('file')} on the map is good to ${w.quantity('accuracy_m', 'length')} (${w.text('shift')}). Its heights are not touched.`,
  'datum-shift-unknown': (w) =>
    `How well ${w.text('file')} lies on the map is not known (${w.text('shift')}). Its heights are not touched.`,
  'outside-crs-area': (w) =>
    `${w.text('file')} lies outside the area of ${w.text('crs')}, near ${w.text('lat')}, ${w.text('lon')}. Its projection may be stated wrongly.`,
  'coarse-samples': (w) =>
    `The line is so long that its ground was read every ${w.quantity('step_m', 'length')} instead of every ${w.quantity('wanted_m', 'length')}.`,
  'vertical-unit-assumed': (w) =>
    `${w.text('file')} does not name the unit of its heights; metres were taken. As metres the ground slopes ${w.percent('slope')} on the whole, as feet it would slope ${w.percent('slope_in_feet')}: make sure of it.`,
  'no-data-unreachable': (w) =>
    `The file says that ${w.text('stated')} means “no height”, but its cells cannot hold that number.`,
  'odd-heights': (w) =>
    `${w.text('file')} holds numbers that are no height of any ground (${w.text('count')} read so far, first ${w.text('first')}). Their cells count as holes.`,
  'broken-blocks': (w) =>
    `${w.text('file')} is broken in places (${w.text('count')} found so far, first ${w.text('first')}). The ground there counts as a hole; get the file again.`,
  'answer-not-taken': (w) =>
    `${w.text('file')} states its own ${ABOUT[w.text('about')] ?? w.text('about')}, ${w.text('stated')}; the answer ${w.text('answered')} was not taken.`,
  'other-pages': (w) => `The file holds ${w.text('count')} more pages, which were not read.`,
};

const ABOUT: Readonly<Record<string, string>> = { unit: 'unit of heights', crs: 'coordinate reference system' };

const BECAUSE: Readonly<Record<string, string>> = {
  'file-name': 'its name',
  'cell-size': 'the size of its cells',
  'whole-metres': 'its cells and its whole metres',
};

/** A share or a slope in per cent, to two figures or whole. */
export function percentWords(ratio: number): string {
  const percent = 100 * ratio;
  return `${percent >= 10 ? Math.round(percent) : Number(percent.toPrecision(1))} %`;
}

/** Something the terrain has to tell, as a sentence. */
export function terrainNoteSentence({ code, data }: TerrainNote, units: UnitSystem): string {
  const own = Object.values(data).filter((value) => typeof value === 'string');
  const sentence = SENTENCES[code]({
    text: (name) => String(data[name] ?? ''),
    quantity: (name, kind) => {
      const value = data[name];
      return typeof value === 'number' ? writeQuantity(value, kind, units) : String(value ?? '');
    },
    percent: (name) => percentWords(Number(data[name] ?? 0)),
    has: (name) => data[name] !== undefined,
    className: (name) => classTitle(String(data[name] ?? ''), units),
  });
  return spelled(sentence, units, own);
}

/** What an accuracy class is called. */
export function classTitle(id: string, units: UnitSystem): string {
  if (id === OWN_CONSTANTS) return 'figures that were typed in';
  const title = accuracyClasses.find((each) => each.id === id)?.title ?? id;
  return units === 'us' ? inFeet(title) : title;
}

/** Widths of cells in feet; a model that is named by its metres keeps its name, as Americans write it. */
function inFeet(title: string): string {
  const feet = (metres: string) => String(Math.round(fromSi(Number(metres), 'foot')));
  return spelled(title, 'us')
    .replace(
      /(cells (?:up to|of(?: about)?)) (\d+)(?: to (\d+))? m\b/g,
      (_, before: string, from: string, to?: string) =>
        to === undefined ? `${before} ${feet(from)} ft` : `${before} ${feet(from)} to ${feet(to)} ft`,
    )
    .replace(/half a meter/g, '1.6 ft')
    .replace(/(\d+) m (?=cells)/g, (_, metres: string) => `${feet(metres)} ft `)
    .replace(/(\d+) m\b/g, '$1-meter');
}
