import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { cautionsPart } from './cautions-part.ts';
import { groundSentence } from './ground-part.ts';
import { mapBlock } from './map-part.ts';
import { measureBlocks } from './measure-part.ts';
import { lineRows, noteList, pointRows } from './points-part.ts';
import type { PrintSource } from './print-source.ts';
import { PROFILE_KEY, profileBlock, wayToTank } from './profiles-part.ts';
import { sheetFoot, sheetHead, verdictLine } from './sheet-head.ts';
import { paragraph, part, sheetTable } from './sheet-node.ts';
import { shownTanks } from './shown-tanks.ts';
import { checklist, visitBlanks } from './visit-parts.ts';

const MAP_HEIGHT = 480;

/** The sheet for a site visit: where everything is, what to measure with room to write it, what to bring, what to mind. */
export function visitSheet(source: PrintSource): FigureNode {
  const { site } = source;
  return figureNode(
    'article',
    { class: 'report visit-sheet' },
    sheetHead(source, 'Site visit sheet'),
    verdictLine(site?.evaluation ?? null),
    site === null ? null : paragraph(groundSentence(site, source.units)),
    visitBlanks(),
    part('Map', mapBlock(source, MAP_HEIGHT)),
    part('Points', sheetTable(pointRows(source), 'points')),
    part('Lines', sheetTable(lineRows(source), 'lines')),
    part('Notes', noteList(source)),
    part('What to measure, in order of worth', measureBlocks(source)),
    part('Before you go', checklist()),
    cautionsPart(),
    profilesOfVisit(source),
    sheetFoot(source),
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
