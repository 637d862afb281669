import { MOST_LINK, planFragment } from '../../plan/exchange/plan-link.ts';
import { codeFigure } from '../figure/code-figure.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { cautionsPart } from './cautions-part.ts';
import { groundSentence } from './ground-part.ts';
import { mapBlock } from './map-part.ts';
import { blank, measureBlocks, sketchBox } from './measure-part.ts';
import { lineRows, noteList, pointRows } from './points-part.ts';
import type { PrintSource } from './print-source.ts';
import { shownTanks } from './print-source.ts';
import { PROFILE_KEY, profileBlock, wayToTank } from './profiles-part.ts';
import { sheetFoot, sheetHead, verdictLine } from './sheet-head.ts';
import { inSpelling, list, paragraph, part, sheetTable } from './sheet-node.ts';

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
function checklist(): FigureNode {
  const items = CHECKLIST.map(([thing, why]) => [
    figureNode('span', { class: 'tick-box' }),
    figureNode('strong', {}, thing),
    why === '' ? '' : ` ${why}`,
  ]);
  return list(items, 'checklist') ?? figureNode('ul', {});
}

/** Who went, when, and in what weather: a reading without that is half a reading. */
function visitBlanks(): FigureNode {
  const names = ['Visited by', 'Date and time', 'Weather, last rain', 'Water at the source: high, usual or low'];
  return figureNode('div', { class: 'blanks' }, ...names.map((name) => blank(name, 'half')));
}

const LOCAL = /^https?:\/\/(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?\//;

/** The plan as a code to photograph; nothing where nobody said at which address the planner is, or the plan is too large. */
function codePart({ plan, planner }: PrintSource): FigureNode | null {
  if (planner === undefined) return null;
  const link = `${planner}${planFragment(plan)}`;
  const code =
    link.length > MOST_LINK ? null : codeFigure(link, 'Code to photograph: it opens the plan in the planner');
  if (code === null) return null;
  const local = LOCAL.test(planner) ? ' That address is this machine’s own: other devices cannot open it.' : '';
  return part(
    'The plan to photograph',
    figureNode('div', { class: 'code-block' }, code),
    paragraph(
      `A phone’s camera opens the plan from this code at ${planner}, without sending it anywhere. It holds no ground: open the elevation file there, too.${local}`,
      'small',
    ),
  );
}

const MAP_HEIGHT = 480;

/** The sheet for a site visit: where everything is, what to measure with room to write it, what to bring, what to mind. */
export function visitSheet(source: PrintSource): FigureNode {
  const { site } = source;
  return inSpelling(
    figureNode(
      'article',
      { class: 'report visit-sheet' },
      sheetHead(source, 'Site visit sheet'),
      verdictLine(source, site?.evaluation ?? null),
      site === null ? null : paragraph(groundSentence(site, source.units)),
      visitBlanks(),
      part('Map', mapBlock(source, MAP_HEIGHT)),
      part('Points', sheetTable(pointRows(source), 'points')),
      part('Lines', sheetTable(lineRows(source), 'lines')),
      part('Notes', noteList(source)),
      part('What to measure, in order of worth', measureBlocks(source)),
      part('Sketch', sketchBox()),
      profilesOfVisit(source),
      codePart(source),
      part('Before you go', checklist()),
      cautionsPart(),
      sheetFoot(source),
    ),
    source,
  );
}

function profilesOfVisit(source: PrintSource): FigureNode | null {
  const blocks = shownTanks(source).map(({ id }, i) => {
    const way = wayToTank(source, id);
    return way === null ? null : profileBlock(source, way, `profile-${i}`);
  });
  if (blocks.every((block) => block === null)) return null;
  return part('Profile', ...blocks, paragraph(PROFILE_KEY, 'small'));
}
