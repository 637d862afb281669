import type { MeasureFirst } from '../../evaluation/result/evaluation.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { measureReason } from '../findings/measure-reason.ts';
import { levelBridge } from '../words/level-bridge.ts';
import { measureWords } from '../words/measure-words.ts';
import type { PrintedSite, PrintSource } from './print-source.ts';
import { otherUnits, paragraph } from './sheet-node.ts';

/** What is written down for each quantity; a level is taken twice, there and back. */
const LEVEL = ['Way out', 'Way back', 'Mean'] as const;
const BLANKS: Readonly<Record<string, readonly string[]>> = {
  'drive-length': ['Tape, way down', 'Tape, way up', 'Mean'],
  'drive-line': ['Highest above the line', 'From the inlet'],
  bores: ['Supply line', 'Drive pipe'],
  'tank-volume': ['Length or diameter', 'Width', 'Outlet to overflow', 'Holds'],
  'line-flow': ['Container holds', 'Time 1', 'Time 2', 'Time 3'],
  beats: ['Beats', 'In seconds'],
  'source-yield': ['Container holds', 'Time 1', 'Time 2', 'Time 3', 'Time 4', 'Time 5'],
  'pump-efficiency': ['Pump takes', 'Pump delivers', 'Fall', 'Delivery head', 'Beats a minute'],
};

/** What to measure in order of worth, each with room for the reading; null when there is nothing. */
export function measureBlocks(source: PrintSource): FigureNode | null {
  const { site } = source;
  if (site === null || site.evaluation.measureFirst.length === 0) return null;
  const items = site.evaluation.measureFirst.map((item) => measureBlock(item, site, source));
  return figureNode('ol', { class: 'to-measure' }, ...items);
}

function measureBlock(item: MeasureFirst, site: PrintedSite, { plan, units }: PrintSource): FigureNode {
  const words = measureWords(item, plan, units);
  const other = measureWords(item, plan, otherUnits(units));
  const both = (mine: string, others: string) => (item.unit === 'share' ? mine : `${mine} (${others})`);
  const { expected, aim } = item;
  const facts = [
    expected === null || words.expected === null
      ? null
      : `Expected ${both(words.expected, other.expected ?? words.expected)}.`,
    aim === null ? 'Any reading helps.' : `Measure it ${words.aim ?? ''}.`,
  ];
  const bridge = levelBridge(item, plan, units);
  const reason = measureReason(item, site.evaluation, plan, units);
  return figureNode(
    'li',
    { class: 'measure-item', 'data-quantity': item.quantity, 'data-about': item.about },
    figureNode('h3', {}, words.title),
    paragraph([...facts, bridge].filter((fact) => fact !== null).join(' ')),
    reason === '' ? null : paragraph(reason, 'why'),
    blanks(item.quantity),
  );
}

/** Room to write: a label over a line for each reading, and one for how it was taken. */
function blanks(quantity: string): FigureNode {
  const names = [...(BLANKS[quantity] ?? LEVEL), 'Plus or minus'];
  const cells = names.map((name) => blank(name));
  return figureNode('div', { class: 'blanks' }, ...cells, blank('How, by whom, remarks', 'wide'));
}

export function blank(name: string, kind = ''): FigureNode {
  return figureNode(
    'div',
    { class: `blank ${kind}`.trim() },
    figureNode('span', { class: 'blank-name' }, name),
    figureNode('span', { class: 'blank-line' }),
  );
}

/** Room to draw in. */
export function sketchBox(): FigureNode {
  return figureNode(
    'div',
    { class: 'sketch' },
    figureNode('span', { class: 'blank-name' }, 'Room for a sketch: north, distances, what stands in the way'),
  );
}

/** What to measure and how well, one line each. */
export function measureTitles({ plan, units, site }: PrintSource): readonly string[] {
  return (site?.evaluation.measureFirst ?? []).map((item) => {
    const { title, aim } = measureWords(item, plan, units);
    return `${title}${aim === null ? '' : `, ${aim}`}.`;
  });
}

/** What to measure as sentences, for the report. */
export function measureSentences({ plan, units, site }: PrintSource): readonly (readonly [string, string])[] {
  return (site?.evaluation.measureFirst ?? []).map((item) => {
    const words = measureWords(item, plan, units);
    const facts = [
      ...(words.aim === null ? [] : [words.aim]),
      ...(words.expected === null ? [] : [`expected ${words.expected}`]),
    ];
    const reason = site === null ? '' : measureReason(item, site.evaluation, plan, units);
    return [words.title, `${facts.length > 0 ? `: ${facts.join(', ')}` : ''}. ${reason}`.trimEnd()] as const;
  });
}
