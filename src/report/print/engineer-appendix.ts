import { addressName, shownAddress } from '../../terrain/bytes/address-name.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { assumptionsPart } from './assumptions-part.ts';
import { cautionsPart } from './cautions-part.ts';
import { findingsPart } from './findings-part.ts';
import { groundPart } from './ground-part.ts';
import { mapBlock } from './map-part.ts';
import { materialsPart } from './materials-part.ts';
import { measureSentences } from './measure-part.ts';
import { lineResultRows, noteList, pointRows } from './points-part.ts';
import type { PrintSource } from './print-source.ts';
import { PROFILE_KEY, profileBlock, wholeWays } from './profiles-part.ts';
import { pumpPart } from './pump-part.ts';
import { sheetFoot, sheetHead, verdictLine } from './sheet-head.ts';
import {
  figureBlock,
  inSpelling,
  list,
  numberedList,
  paragraph,
  part,
  sheetTable,
  strong,
  together,
} from './sheet-node.ts';
import { sizesPart } from './sizes-part.ts';
import { tanksPart, troughsPart } from './tanks-part.ts';
import { yearPart } from './year-part.ts';

const MAP_HEIGHT = 420;

/** Everything behind the owner's two pages, for whoever checks them. Parts with nothing in them are left out. */
export function engineerAppendix(source: PrintSource): FigureNode {
  const { site } = source;
  const measure = measureSentences(source).map(([title, rest]) => [strong(title), rest]);
  return inSpelling(
    figureNode(
      'article',
      { class: 'report engineer-appendix' },
      sheetHead(source, 'Engineer’s appendix'),
      verdictLine(source, site?.evaluation ?? null),
      part('Map', mapBlock(source, MAP_HEIGHT)),
      part('Points', sheetTable(pointRows(source), 'points')),
      part('Lines', sheetTable(lineResultRows(source), 'wide lines')),
      part('Notes', noteList(source)),
      profilesPart(source),
      pumpPart(source),
      tanksPart(source),
      troughsPart(source),
      yearPart(source),
      findingsPart(source),
      part('What to measure, in order of worth', numberedList(measure)),
      materialsPart(source),
      sizesPart(source),
      reckonedPart(source),
      groundPart(source),
      assumptionsPart(source),
      cautionsPart(),
      aboutPart(source),
      sheetFoot(source),
    ),
    source,
  );
}

function profilesPart(source: PrintSource): FigureNode | null {
  const blocks = wholeWays(source).map((way, i) => profileBlock(source, way, `profile-${i}`));
  const [first = null, ...rest] = blocks.filter((block) => block !== null);
  if (first === null) return null;
  return part('Profiles', together(paragraph(PROFILE_KEY, 'small'), first), ...rest);
}

/** Figures that the search for a place left on the desk. */
function reckonedPart({ found }: PrintSource): FigureNode | null {
  const blocks = (found ?? []).map(({ figure, caption }) => figureBlock(figure, caption));
  return part('From the search for a place', ...blocks);
}

/** Which program and data made the report. */
export function aboutPart({ program, date, site, plan, tilesAttribution }: PrintSource): FigureNode | null {
  const known = plan.terrain?.files ?? [];
  const files = (site?.about.files ?? known).map((file) => placeOf(file, known));
  return part(
    'Program and data',
    list([
      `${program.name} ${program.version}, with the tables of pipes, losses, needs and accuracies that belong to this version.`,
      ...(files.length > 0
        ? [
            `Elevation: ${files.join(', ')}${site === null ? ' (not open when this was made)' : ` (${site.about.size.columns} × ${site.about.size.rows} cells, ${site.about.crs})`}.`,
          ]
        : []),
      `Made on ${date}.`,
    ]),
    tilesAttribution ? figureNode('p', { class: 'small' }, `Map on the screen: ${tilesAttribution}`) : null,
  );
}

/** The address of a file that was opened by its address, else its name. */
function placeOf(file: string, known: readonly string[]): string {
  return shownAddress(known.find((reference) => addressName(reference) === file) ?? file);
}
