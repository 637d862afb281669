import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { estimateWords } from '../words/measure-words.ts';

/** The parts of the demo that the guided look speaks of. */
export const TOUR_PARTS = {
  pump: 'pump',
  served: 'tank-shoulder',
  behind: 'tank-behind-knoll',
  line: 'delivery-behind-knoll',
  waiting: 'tank-spur',
} as const;

/** One stop of the guided look: what to do with one's own hand, and what one sees then. */
export interface TourStop {
  readonly title: string;
  readonly doThis: string;
  readonly seen: string;
}

/** The six stops, in the reader's units, with the numbers that stand on the page. */
export function tourStops(evaluation: Evaluation | null, units: UnitSystem): readonly TourStop[] {
  const tank = (id: string) => evaluation?.tanks.find((each) => each.id === id);
  const day = (value: number | null | undefined) => (value == null ? '…' : writeQuantity(value, 'daily-volume', units));
  const gets = (id: string) => day(tank(id)?.line?.deliveryPerDay?.likely);
  const needs = (id: string) => day(tank(id)?.demandPerDay);
  const fall = evaluation?.pump?.fall;
  const fallWords = fall === undefined ? '…' : estimateWords(fall, 'height', units).likely;
  const us = units === 'us';
  return [
    {
      title: 'This is the fall',
      doThis: 'Choose “Pump on the bench”: in the water path, or its diamond on the map.',
      seen: `The pump stands below the spring, and the water between them drives it: a fall of ${fallWords}. No other power is needed.`,
    },
    {
      title: 'This tank is served',
      doThis: 'Choose “Shoulder tank”.',
      seen: `About ${gets(TOUR_PARTS.served)} arrive there a day, and ${needs(TOUR_PARTS.served)} are needed. The tick says that this is sure enough, with every doubt counted.`,
    },
    {
      title: 'This one fails because of the knoll: bend the line',
      doThis:
        'Choose “Delivery over the knoll”. Drag its middle on the map round the southern foot of the hill; or under Selected press “Add a bend” and type longitude -39.9935, latitude 38.0012.',
      seen: `The line no longer climbs over the hill, so less height has to be won: now about ${gets(TOUR_PARTS.behind)} arrive a day, and ${needs(TOUR_PARTS.behind)} are needed. Undo takes it back.`,
    },
    {
      title: 'This one waits for a level: type it',
      doThis: `“Spur tank” is marked to be checked on site. Say you went there: choose “Pump on the bench”, open “Measured on site” under Selected, and type that its ground is ${us ? '13 ft 9 in' : '4.2 m'} lower than the ground at Alder spring, give or take ${us ? '1 in' : '2 cm'}.`,
      seen: 'The measured level takes the place of the guess from the elevation file.',
    },
    {
      title: 'See it turn',
      doThis: 'Choose “Spur tank”, or look for it in the answer.',
      seen: `It is no longer in doubt: with the fall that was measured about ${gets(TOUR_PARTS.waiting)} arrive a day, and ${needs(TOUR_PARTS.waiting)} are needed. It is a clear no, before any pipe was bought. A greater fall would have made it a clear yes.`,
    },
    {
      title: 'Print the sheet',
      doThis:
        'Open the menu with the files and press “Print the site visit sheet”. Close the sheet again when you have seen it.',
      seen: 'That is what you take along: the map, what to measure, how well, and what to expect. Now try it with your own land: New, then choose an elevation file.',
    },
  ];
}
