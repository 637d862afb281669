import type { UnitSystem } from '../../units/kind.ts';
import { findingRows } from './compared-findings.ts';
import { billRows, lengthRows } from './compared-lengths.ts';
import type { ComparedPair } from './compared-pair.ts';
import { pumpRows, tankRows, troughRows } from './compared-results.ts';
import type { ComparedRow } from './compared-row.ts';
import { plansApart } from './plans-apart.ts';

export interface ComparedPart {
  readonly title: string;
  readonly rows: readonly ComparedRow[];
}

/** Two plans side by side: what comes of each, what is laid, what stands open, and in what they differ as drawn. */
export function comparePlans(pair: ComparedPair, units: UnitSystem): readonly ComparedPart[] {
  const parts = [
    {
      title: 'What comes of it',
      rows: [...pumpRows(pair, units), ...tankRows(pair, units), ...troughRows(pair, units)],
    },
    { title: 'Lengths along the ground', rows: lengthRows(pair, units) },
    { title: 'Pipe to buy', rows: billRows(pair, units) },
    { title: 'What stands open', rows: findingRows(pair, units) },
    { title: 'What was drawn or typed differently', rows: plansApart(pair.one.plan, pair.other.plan, units) },
  ];
  return parts.filter(({ rows }) => rows.length > 0);
}

/** The parts with only those rows in which the two differ. */
export function differingParts(parts: readonly ComparedPart[]): readonly ComparedPart[] {
  return parts.flatMap(({ title, rows }) => {
    const differing = rows.filter(({ standing }) => standing !== 'same');
    return differing.length === 0 ? [] : [{ title, rows: differing }];
  });
}

/** How many rows are the same in both plans. */
export function countSame(parts: readonly ComparedPart[]): number {
  return parts.reduce((sum, { rows }) => sum + rows.filter(({ standing }) => standing === 'same').length, 0);
}
