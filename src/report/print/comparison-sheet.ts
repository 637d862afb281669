import type { RouteId } from '../../plan/model/plan.ts';
import { type ComparedPart, comparePlans, countSame, differingParts } from '../compare/compare-plans.ts';
import { alternativeProfile } from '../compare/compared-profiles.ts';
import {
  type ComparedPair,
  type ComparedRow,
  type ComparedValue,
  clearWords,
  STANDING_WORDS,
} from '../compare/compared-row.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { answerSentence } from '../findings/answer-words.ts';
import { planMapFigure } from '../plan-map/plan-map-figure.ts';
import { profileFigure } from '../profile/profile-figure.ts';
import { type ProfileSource, profileOfWay } from '../profile/profile-of-plan.ts';
import { textColumn, UNKNOWN } from '../tables/report-table.ts';
import type { WaterWay } from '../tables/water-ways.ts';
import { SHEET_WIDTH } from './map-part.ts';
import type { PrintedSite, PrintSource } from './print-source.ts';
import { wholeWays } from './profiles-part.ts';
import { sheetFoot } from './sheet-head.ts';
import { figureBlock, inSpelling, numberedList, paragraph, part, sheetTable, strong, together } from './sheet-node.ts';

const MAP_HEIGHT = 268;
const PROFILE_HEIGHT = 190;

/** Two plans to be printed side by side, each on its ground; units and contours are those of the first. */
export interface PrintedPair {
  readonly one: PrintSource & { readonly site: PrintedSite };
  readonly other: PrintSource & { readonly site: PrintedSite };
  readonly drawn: ComparedPair['drawn'];
}

/** Two plans on paper: which they are, where they lie, their profiles over each other, and every difference. */
export function comparisonSheet(pair: PrintedPair): FigureNode {
  const { one, other } = pair;
  const compared = { one: comparedOf(one), other: comparedOf(other), drawn: pair.drawn };
  const parts = comparePlans(compared, one.units);
  const differing = differingParts(parts);
  return inSpelling(
    figureNode(
      'article',
      { class: 'report comparison-sheet' },
      figureNode(
        'header',
        { class: 'sheet-head' },
        figureNode('p', { class: 'kind' }, `Comparison · ${one.date}`),
        figureNode('h1', {}, 'Two plans side by side'),
      ),
      numberedList(
        [one, other].map((each) => [
          strong(nameOf(each)),
          `: ${answerSentence(each.site.evaluation.answer, each.plan)}`,
        ]),
      ),
      mapOfBoth(pair),
      ...differing.map(({ title, rows }) => part(title, sheetTable(tableOf(rows, pair), 'compared'))),
      paragraph(closing(differing, countSame(parts), clearWords(pair.drawn)), 'small'),
      profilesOfBoth(pair),
      sheetFoot(one),
    ),
    one,
  );
}

const nameOf = ({ plan }: PrintSource) => (plan.name === '' ? 'Plan without a name' : plan.name);

const comparedOf = ({ plan, site }: PrintedPair['one']) => ({ plan, evaluation: site.evaluation });

function mapOfBoth({ one, other }: PrintedPair): FigureNode | null {
  const { plan, units, contours } = one;
  const size = { width: SHEET_WIDTH, mostHeight: MAP_HEIGHT };
  const map = planMapFigure({ plan, units, contours, beside: other.plan, size, key: 'map' });
  return figureBlock(map, `${legend(one, other)} North is up. Degrees of longitude and latitude, WGS 84.`);
}

const legend = (one: PrintSource, other: PrintSource) => `Drawn in full: ${nameOf(one)}. Dotted: ${nameOf(other)}.`;

/** The ways that lie otherwise in the second plan. */
function profilesOfBoth(pair: PrintedPair): FigureNode | null {
  const { one, other } = pair;
  const ways = wholeWays(one).filter(({ routes }) => routes.some((id) => layOf(one, id) !== layOf(other, id)));
  const blocks = ways.map((way, i) => profileOfBoth(pair, way, `profile-${i}`));
  const [first = null, ...rest] = blocks.filter((block) => block !== null);
  if (first === null) return null;
  return part('Profiles over each other', together(paragraph(legend(one, other), 'small'), first), ...rest);
}

/** Where a line lies, as text that can be compared. */
const layOf = ({ plan }: PrintSource, route: RouteId) =>
  JSON.stringify(plan.routes.find(({ id }) => id === route)?.vertices ?? null);

function profileOfBoth({ one, other }: PrintedPair, way: WaterWay, key: string): FigureNode | null {
  const main = profileOfWay(profileSource(one), way);
  const beside = alternativeProfile(profileSource(other), way);
  const legs = [...main.legs, ...beside.legs];
  const size = { width: SHEET_WIDTH, height: PROFILE_HEIGHT };
  const figure = profileFigure({ ...main, legs, units: one.units, size, cursor: null, key });
  return figureBlock(figure, way.title);
}

function profileSource({ plan, site: { evaluation, ground } }: PrintedPair['one']): ProfileSource {
  return { plan, evaluation, ...ground };
}

function tableOf(rows: readonly ComparedRow[], { one, other }: PrintedPair) {
  return {
    columns: ['What', `1 ${nameOf(one)}`, `2 ${nameOf(other)}`, 'Change from 1 to 2'].map(textColumn),
    rows: rows.map((row, at) => ({
      id: `${at}`,
      cells: [row.about, valueCell(row.one), valueCell(row.other), differenceCell(row)],
    })),
  };
}

function valueCell(value: ComparedValue | null): string {
  if (value === null) return UNKNOWN;
  return value.range === null ? value.words : `${value.words} (${value.range})`;
}

function differenceCell({ difference, differenceRange, standing }: ComparedRow): string {
  const by = difference !== null && differenceRange !== null ? `${difference} (${differenceRange})` : difference;
  return [by, STANDING_WORDS[standing]].filter(Boolean).join(', ');
}

function closing(differing: readonly ComparedPart[], same: number, clear: string): string {
  const rest = `${same} ${same === 1 ? 'row is' : 'rows are'} the same in both and left out.`;
  if (differing.length === 0) return 'The two plans do not differ.';
  return `Ranges are from the 10th to the 90th percentile. ${clear} ${rest}`;
}
