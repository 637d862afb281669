import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { moneyWords } from './money-words.ts';
import { type SiteNoteLike, siteNoteSentence, systemNameWords } from './site-words.ts';
import { inSentence, TERMS } from './terms.ts';

/** A place for the pump as it is told, in SI. */
interface PlaceLike {
  readonly fall: Estimate;
  readonly supply: number;
  readonly drive: number;
  readonly trench: number;
  readonly depth: number;
  readonly standpipe: unknown;
  readonly delivery: Estimate;
  readonly because: SiteNoteLike;
}

const range = ({ low, likely, high }: Estimate, kind: 'height' | 'daily-volume', units: UnitSystem): string =>
  `${writeQuantity(likely, kind, units)} (${writeQuantity(low, kind, units)} to ${writeQuantity(high, kind, units)})`;

/** Rows of a place: what it is and the figure. */
export function placeRows(
  place: PlaceLike,
  units: UnitSystem,
): readonly { readonly what: string; readonly words: string }[] {
  const metres = (value: number): string => writeQuantity(value, 'length', units);
  const dug = `, of it ${metres(place.trench)} in a trench up to ${writeQuantity(place.depth, 'height', units)} deep`;
  return [
    { what: TERMS.arrives.plain, words: range(place.delivery, 'daily-volume', units) },
    { what: TERMS.fall.plain, words: range(place.fall, 'height', units) },
    {
      what: 'Supply line',
      words: place.standpipe === null ? 'none: the drive pipe comes straight from the source' : metres(place.supply),
    },
    { what: 'Drive pipe', words: `${metres(place.drive)}${place.trench > 0 ? dug : ''}` },
    { what: 'Why not more', words: siteNoteSentence(place.because, units) },
  ];
}

const VERDICTS: Readonly<Record<Verdict, string>> = {
  holds: 'yes',
  measure: 'check on site',
  fails: 'no',
};

interface SystemLike {
  readonly name: string;
  readonly delivery: Estimate;
  readonly pipe: number;
  readonly cost: number | null;
  readonly runs: Verdict;
  readonly arrives: Verdict;
  readonly tank: string;
  readonly place: number;
}

/** A system in one line. */
export function systemWords(system: SystemLike, units: UnitSystem, currency: string): string {
  const cost =
    system.cost === null ? '' : `, ${moneyWords(Math.round(system.cost), currency, units).replace('.00', '')}`;
  const name = systemNameWords(system.name);
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${range(system.delivery, 'daily-volume', units)} at ${system.tank} from place ${
    system.place + 1
  }, ${writeQuantity(system.pipe, 'length', units)} of pipe${cost}; runs: ${VERDICTS[system.runs]}, brings enough: ${VERDICTS[system.arrives]}`;
}

/** What the axes of water against outlay are called. */
export const frontAxes = (outlay: 'metres' | 'cost', currency: string): { readonly x: string; readonly y: string } => ({
  x: outlay === 'metres' ? 'pipe to lay' : `cost${currency === '' ? '' : `, ${currency}`}`,
  y: inSentence(TERMS.arrives),
});
