import data from '../../data/temperature-derating.json' with { type: 'json' };
import type { Celsius, Ratio } from '../units/quantity.ts';
import { provenanceOf, published, type Sourced } from './provenance.ts';

/** Which table holds for a pipe; polyethylene of unknown make takes the stricter metric one. */
export type Derating = 'steel' | keyof typeof data;

interface Step {
  readonly temperature: Celsius;
  readonly factor: Ratio;
}

interface Table extends Sourced {
  readonly steps: readonly Step[];
}

const TABLES: Readonly<Record<keyof typeof data, Table>> = {
  pvc: tableOf(data.pvc),
  pe: tableOf(data.pe),
  'pe-inch': tableOf(data['pe-inch']),
  copper: tableOf(data.copper),
};

/**
 * Share of its rated pressure that a pipe keeps at a temperature, straight between the published steps.
 *
 * Below the first step it is 1: cold earns nothing. Above the last step the table says nothing and neither does this: null.
 * Steel keeps all of it over the range of cold and warm water.
 */
export function deratingFactor(derating: Derating, temperature: Celsius): Ratio | null {
  if (derating === 'steel') return 1;
  const { steps } = TABLES[derating];
  const above = steps.findIndex((step) => temperature <= step.temperature);
  const [left, right] = [steps[above - 1], steps[above]];
  if (right === undefined) return null;
  if (left === undefined) return 1;
  const share = (temperature - left.temperature) / (right.temperature - left.temperature);
  return left.factor + share * (right.factor - left.factor);
}

/** The last temperature of a table, above which a pipe has no rating; null for steel. */
export function lastTemperature(derating: Derating): Celsius | null {
  return derating === 'steel' ? null : (TABLES[derating].steps.at(-1)?.temperature ?? null);
}

/** Where a derating table comes from; null for steel, which needs none. */
export function deratingSource(derating: Derating): Sourced | null {
  return derating === 'steel' ? null : TABLES[derating];
}

function tableOf(table: (typeof data)[keyof typeof data]): Table {
  return {
    steps: Object.entries(table.factors).map(([at, factor]) => ({ temperature: published(at, 'temperature'), factor })),
    source: table.source,
    provenance: provenanceOf(table.provenance),
  };
}
