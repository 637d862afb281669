import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { aboutPart } from './about-part.ts';
import { assumptionsPart } from './assumptions-part.ts';
import { cautionsPart, shortCautions } from './cautions-part.ts';
import { findingsPart } from './findings-part.ts';
import { groundPart } from './ground-part.ts';
import { jobSentences } from './job-words.ts';
import { mapBlock } from './map-part.ts';
import { materialsPart } from './materials-part.ts';
import { measureSentences } from './measure-part.ts';
import { nextSteps } from './next-steps.ts';
import { numberRows } from './number-rows.ts';
import { lineResultRows, noteList, pointRows } from './points-part.ts';
import type { PrintSource } from './print-source.ts';
import { PROFILE_KEY, profileBlock, wholeWays } from './profiles-part.ts';
import { pumpPart } from './pump-part.ts';
import { sheetHead, verdictLine } from './sheet-head.ts';
import { numberedList, paragraph, part, sheetTable, strong, together } from './sheet-node.ts';
import { sizesPart } from './sizes-part.ts';
import { tanksPart, troughsPart } from './tanks-part.ts';
import { yearPart } from './year-part.ts';

/** Height of the map on page one: what is left of a page beside words and numbers. */
const MAP_HEIGHT = 268;

/** The owner's report: one page to hand over, and the details after it. Parts with nothing in them are left out. */
export function ownerReport(source: PrintSource): FigureNode {
  return figureNode('article', { class: 'report owner-report' }, pageOne(source), ...details(source));
}

function pageOne(source: PrintSource): FigureNode {
  const { site } = source;
  const job = jobSentences(source).join(' ');
  return figureNode(
    'div',
    { class: 'page-one' },
    sheetHead(source, 'Report'),
    job === '' ? null : paragraph(job),
    verdictLine(site?.evaluation ?? null),
    mapBlock(source, MAP_HEIGHT),
    part('In numbers', sheetTable(numberRows(source), 'in-numbers')),
    part('What to do next', numberedList(nextSteps(source))),
    shortCautions(),
  );
}

function details(source: PrintSource): (FigureNode | null)[] {
  const measure = measureSentences(source).map(([title, rest]) => [strong(title), rest]);
  return [
    part('Points', sheetTable(pointRows(source), 'points')),
    part('Lines', sheetTable(lineResultRows(source), 'wide lines')),
    part('Notes', noteList(source)),
    profilesPart(source),
    pumpPart(source),
    tanksPart(source),
    troughsPart(source),
    findingsPart(source),
    part('What to measure, in order of worth', numberedList(measure)),
    materialsPart(source),
    sizesPart(source),
    yearPart(source),
    groundPart(source),
    assumptionsPart(source),
    cautionsPart(),
    aboutPart(source),
  ];
}

function profilesPart(source: PrintSource): FigureNode | null {
  const blocks = wholeWays(source).map((way, i) => profileBlock(source, way, `profile-${i}`));
  if (blocks.every((block) => block === null)) return null;
  const [first = null, ...rest] = blocks.filter((block) => block !== null);
  return part('Profiles', together(paragraph(PROFILE_KEY, 'small'), first), ...rest);
}
