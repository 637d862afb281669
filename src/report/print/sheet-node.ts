import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FigureChild, type FigureNode, figureNode } from '../figure/figure-node.ts';
import { type ReportTable, UNKNOWN } from '../tables/report-table.ts';
import { estimateWords } from '../words/measure-words.ts';
import { spelled } from '../words/spelling.ts';
import type { PrintSource } from './print-source.ts';

/** A part of a sheet: a heading and what stands under it; null when nothing does. */
export function part(title: string, ...children: readonly (FigureNode | null)[]): FigureNode | null {
  const kept = children.filter((child) => child !== null);
  if (kept.length === 0) return null;
  return figureNode('section', { class: 'part' }, figureNode('h2', {}, title), ...kept);
}

/** What no page break may split. */
export function together(...children: readonly (FigureNode | null)[]): FigureNode {
  return figureNode('div', { class: 'together' }, ...children);
}

/** A smaller part inside one. */
export function subpart(
  title: FigureChild | readonly FigureChild[],
  ...children: readonly (FigureNode | null)[]
): FigureNode | null {
  const kept = children.filter((child) => child !== null);
  if (kept.length === 0) return null;
  const words = Array.isArray(title) ? title : [title];
  return figureNode('div', { class: 'subpart' }, figureNode('h3', {}, ...words), ...kept);
}

export function paragraph(text: string, kind: string | null = null): FigureNode {
  return figureNode('p', { class: kind }, text);
}

/** Sentences as a list; null when there is none. */
export function list(
  items: readonly (FigureChild | readonly FigureChild[])[],
  kind: string | null = null,
): FigureNode | null {
  if (items.length === 0) return null;
  return figureNode('ul', { class: kind }, ...items.map((item) => figureNode('li', {}, ...asChildren(item))));
}

export function numberedList(items: readonly (FigureChild | readonly FigureChild[])[]): FigureNode | null {
  if (items.length === 0) return null;
  return figureNode('ol', {}, ...items.map((item) => figureNode('li', {}, ...asChildren(item))));
}

function asChildren(item: FigureChild | readonly FigureChild[]): readonly FigureChild[] {
  return Array.isArray(item) ? item : [item as FigureChild];
}

/** A table with its head, which is repeated on every page it runs over; null without rows. */
export function sheetTable(table: Omit<ReportTable, 'title'>, kind: string | null = null): FigureNode | null {
  if (table.rows.length === 0) return null;
  const classOf = (column: number) => (table.columns[column]?.numeric ? 'number' : null);
  const head = table.columns.map((column, i) => figureNode('th', { scope: 'col', class: classOf(i) }, column.name));
  const rows = table.rows.map(({ id, cells }) =>
    figureNode(
      'tr',
      { 'data-id': id },
      ...cells.map((cell, i) =>
        i === 0
          ? figureNode('th', { scope: 'row', class: classOf(i) }, cell)
          : figureNode('td', { class: cell.length > MOST_UNBROKEN ? null : classOf(i) }, cell),
      ),
    ),
  );
  return figureNode(
    'table',
    { class: kind },
    figureNode('thead', {}, figureNode('tr', {}, ...head)),
    figureNode('tbody', {}, ...rows),
  );
}

/** A figure that no page break splits, with its caption. */
export function figureBlock(figure: FigureNode | null, caption: string | null): FigureNode | null {
  if (figure === null) return null;
  return figureNode('figure', {}, figure, caption === null ? null : figureNode('figcaption', {}, caption));
}

/** A cell of numbers longer than this holds words too and may be broken. */
const MOST_UNBROKEN = 36;

export function strong(text: string): FigureNode {
  return figureNode('strong', {}, text);
}

/** The other system of units: whoever gets a sheet in hand may think in it. */
export function otherUnits(units: UnitSystem): UnitSystem {
  return units === 'metric' ? 'us' : 'metric';
}

/** Likely value and range in one cell; a dash where nothing is known. */
export function estimated(estimate: Estimate | null | undefined, kind: QuantityKind, units: UnitSystem): string {
  if (estimate == null) return UNKNOWN;
  const { likely, range } = estimateWords(estimate, kind, units);
  return range === null ? likely : `${likely} (${range})`;
}

export function written(value: number | null | undefined, kind: QuantityKind, units: UnitSystem): string {
  return value == null ? UNKNOWN : writeQuantity(value, kind, units);
}

/** A sheet in the spelling of those who read its units; what its plan calls things stays as it was typed. */
export function inSpelling(sheet: FigureNode, { plan, units }: PrintSource): FigureNode {
  if (units === 'metric') return sheet;
  const named = [...plan.points, ...plan.routes, ...plan.areas].flatMap(({ name, note }) => [name, note]);
  const own = [plan.name, ...named, plan.pump?.label ?? '', ...(plan.terrain?.files ?? [])];
  const write = (node: FigureNode): FigureNode => ({
    ...node,
    children: node.children.map((child) => (typeof child === 'string' ? spelled(child, units, own) : write(child))),
  });
  return write(sheet);
}
