import { herdRow } from '../../handbook/livestock-needs.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { addressName, shownAddress } from '../../terrain/bytes/address-name.ts';
import { type FigureChild, type FigureNode, figureNode } from '../figure/figure-node.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
import { assumptionsPart } from './assumptions-part.ts';
import { cautionsPart, shortCautions } from './cautions-part.ts';
import { findingsPart } from './findings-part.ts';
import { groundPart } from './ground-part.ts';
import { mapBlock } from './map-part.ts';
import { materialsPart } from './materials-part.ts';
import { measureSentences } from './measure-part.ts';
import { numberRows } from './number-rows.ts';
import { lineResultRows, noteList, pointRows } from './points-part.ts';
import type { PrintSource } from './print-source.ts';
import { shownTanks } from './print-source.ts';
import { PROFILE_KEY, profileBlock, wholeWays } from './profiles-part.ts';
import { pumpPart } from './pump-part.ts';
import { sheetHead, verdictLine } from './sheet-head.ts';
import { list, numberedList, paragraph, part, sheetTable, strong, together } from './sheet-node.ts';
import { sizesPart } from './sizes-part.ts';
import { tanksPart, troughsPart } from './tanks-part.ts';
import { yearPart } from './year-part.ts';

/** So many of each kind fit on page one; the rest is in the details. */
const MOST = 3;

/** What to do next: what fails as drawn, then what to measure. */
function nextSteps(source: PrintSource): readonly (readonly FigureChild[])[] {
  const { plan, units, site } = source;
  if (site === null) return [['Open an elevation file of the place in the planner.']];
  const others = idsOfOthers(source);
  const failing = site.evaluation.findings.filter((f) => f.verdict === 'fails' && !others.has(f.about));
  const remedies = failing.slice(0, MOST).map((finding): FigureChild[] => {
    const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
    return [strong(`${nameOf(plan, finding.about)}: `), words.remedy];
  });
  const measure = measureSentences(source);
  const titles = measure.slice(0, MOST).map(([title]): FigureChild[] => [`${title}.`]);
  const left = failing.length - remedies.length + measure.length - titles.length;
  return [...remedies, ...titles, ...(left > 0 ? [[`${left} more in the details.`]] : [])];
}

/** Tanks that page one does not speak of, with the lines to and from them; the details tell of those. */
function idsOfOthers(source: PrintSource): ReadonlySet<string> {
  const shown = shownTanks(source).map(({ id }) => id);
  const tanks = source.plan.points.filter((p) => p.role === 'tank' && !shown.includes(p.id)).map(({ id }) => id);
  const lines = source.plan.routes.filter(({ from, to }) => tanks.includes(from) || tanks.includes(to));
  return new Set([...tanks, ...lines.map(({ id }) => id)]);
}

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
    verdictLine(source, site?.evaluation ?? null),
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

/** What the plan is for, in a sentence or two: from where to where, and for whom. */
function jobSentences(source: PrintSource): readonly string[] {
  const { plan } = source;
  const named = (role: string) => plan.points.filter((p) => p.role === role).map(({ id }) => nameOf(plan, id));
  const [from] = named('source');
  const [pump] = named('pump');
  const tanks = shownTanks(source).map(({ id }) => nameOf(plan, id));
  const candidates = named('tank').length;
  const lifted = pump === undefined ? '' : `, lifted by a ram pump at ${pump}`;
  const to = tanks.length > 0 ? tanks : named('tank');
  const where = to.length > 0 ? ` to ${to.join(', ')}` : '';
  const way = from === undefined ? [] : [`Water from ${from}${lifted}${where}.`];
  const others =
    candidates > to.length ? [`${candidates} places for a tank were compared; they are in the details.`] : [];
  const herd = herdWords(plan);
  return [...way, ...others, ...(herd === '' ? [] : [`Animals to water: ${herd}.`])];
}

/** The herd as it was entered; empty without one. */
function herdWords(plan: Plan): string {
  return plan.herd
    .map((group) => {
      const label = group.kind === 'own' ? group.label : (herdRow(group.row)?.label ?? group.row);
      return `${group.count} × ${label}`;
    })
    .join(', ');
}
