import { FINDINGS, type FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** Something that a search for places has to tell: a code with its data in SI. */
export interface SiteNoteLike {
  readonly code: string;
  readonly data: Readonly<Record<string, number | string>>;
}

interface NoteWords {
  readonly text: (name: string) => string;
  readonly quantity: (name: string, kind: QuantityKind) => string;
  readonly number: (name: string) => number;
}

const SENTENCES: Readonly<Record<string, (words: NoteWords) => string>> = {
  'fall-short': (w) =>
    w.number('length') > 0
      ? `Along the stream the ground falls ${w.quantity('fall', 'height')} in ${w.quantity('length', 'length')}: too little for a ram. Look farther down, or for a higher source.`
      : `The fall is ${w.quantity('excess', 'height')} short of what a ram needs.`,
  'fall-great': (w) =>
    `The fall is ${w.quantity('excess', 'height')} more than a drive pipe of the size that suits this water works with: stand the pump that much higher.`,
  'drive-blocked': (w) =>
    w.number('excess') > 0
      ? `The ground rises ${w.quantity('excess', 'height')} above a straight drive pipe${place(w)}. With a trench of that depth a pump could stand farther down.`
      : `No straight drive pipe falls all the way to the pump${place(w)}.`,
  'supply-blocked': (w) =>
    `No pipe falls all the way from the source to where a standpipe could stand${place(w)}. Dig the supply line in deeper, or lead it round.`,
  'waste-stands': (w) =>
    `Waste water would stand${place(w)}: no fall leads it back to the stream. Dig a ditch, or stand the pump higher.`,
  'tank-cut-off': () =>
    'No line leads from there to the tank: the heights end, or areas that must not be crossed lie between.',
  'tank-below-source': (w) =>
    `${w.text('tank')} lies ${w.quantity('below', 'height')} below the water at the source: water runs there by itself, without a pump.`,
  'all-fail': (w) =>
    `${w.text('tried')} systems were tried and none holds. What stops most of them: ${comparesOf(w.text('finding'))}.`,
  'no-size': (w) =>
    `No size of ram brings what is needed with a fall of ${w.quantity('fall', 'height')} and ${w.quantity('intake', 'flow')} of water.`,
  'need-unmet': (w) =>
    `The most that arrives is ${w.quantity('most', 'daily-volume')} of the ${w.quantity('need', 'daily-volume')} that are needed.`,
  'coarse-cells': (w) =>
    `A cell is ${w.quantity('cell', 'length')} wide: neither the bank of the stream nor a bump under the drive pipe shows. What is told here is where to look; level fall, lift and the drive pipe’s course on site.`,
  'read-coarser': (w) =>
    `The ground was read in cells of ${w.quantity('cell', 'length')}, larger than the file’s own, because the area is large. Look at a smaller one for more detail.`,
  'lift-taken': (w) =>
    `No tank and no lift was given: water is looked for ${w.quantity('lift', 'height')} above the source.`,
  'lift-not-found': (w) => `The ground near the source does not rise ${w.quantity('lift', 'height')} above it.`,
  'place-fails': (w) => `No system from here holds: ${comparesOf(w.text('finding'))}.`,
  'more-elsewhere': (w) =>
    `${w.quantity('more', 'daily-volume')} more would arrive from another place, ${
      w.number('pipe') >= 0 ? `for ${w.quantity('pipe', 'length')} more pipe` : 'with less pipe'
    }.`,
  'most-here': () => 'None of the places found brings more.',
};

const place = (w: NoteWords): string =>
  w.text('lon') === '' ? '' : ` near ${w.number('lat').toFixed(5)}, ${w.number('lon').toFixed(5)}`;

const comparesOf = (code: string): string =>
  Object.hasOwn(FINDINGS, code) ? FINDINGS[code as FindingCode].compares : code;

/** What a search for places has to tell, as a sentence. */
export function siteNoteSentence({ code, data }: SiteNoteLike, units: UnitSystem): string {
  const sentence = SENTENCES[code];
  if (!sentence) throw new Error(`a note of siting: found ${code}, expected ${Object.keys(SENTENCES).join(', ')}`);
  return sentence({
    text: (name) => String(data[name] ?? ''),
    number: (name) => Number(data[name] ?? 0),
    quantity: (name, kind) => writeQuantity(Number(data[name] ?? 0), kind, units),
  });
}

const SYSTEM_NAMES: Readonly<Record<string, string>> = {
  'most-water': 'most water',
  'least-pipe': 'least pipe',
  surest: 'surest',
  between: 'between',
};

/** What a system of the front is called. */
export const systemNameWords = (name: string): string => SYSTEM_NAMES[name] ?? name;
