import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { blank } from './measure-part.ts';
import { list } from './sheet-node.ts';

const CHECKLIST: readonly (readonly [thing: string, why: string])[] = [
  [
    'Container and watch',
    'for timing the source: the container holds as much as fills in 10 to 60 seconds, and its content was checked.',
  ],
  [
    'Level and staff, or a clear hose with water',
    'for fall and lift; a hose levels through scrub where nothing can be seen.',
  ],
  ['Tape', 'at least 30 m or 100 ft, for pipe lengths along the ground.'],
  ['Stakes, marker and string', 'to mark pump, standpipe, tank and the line of the drive pipe.'],
  ['Camera', 'one picture of each point in each direction, and of every reading.'],
  ['Position receiver or telephone with the points on it', 'to find them again.'],
  ['Leave of the owner and of the neighbours', 'and somebody who knows where you are.'],
  ['This sheet, a pencil and dry cover', ''],
];

/** What to bring, each with a box to tick. */
export function checklist(): FigureNode {
  const items = CHECKLIST.map(([thing, why]) => [
    figureNode('span', { class: 'tick-box' }),
    figureNode('strong', {}, thing),
    why === '' ? '' : ` ${why}`,
  ]);
  return list(items, 'checklist') ?? figureNode('ul', {});
}

/** Who went, when, and in what weather: a reading without that is half a reading. */
export function visitBlanks(): FigureNode {
  const names = ['Visited by', 'Date and time', 'Weather, last rain', 'Water at the source: high, usual or low'];
  return figureNode('div', { class: 'blanks' }, ...names.map((name) => blank(name, 'half')));
}
