import data from '../../data/practice-criteria.json' with { type: 'json' };
import type { QuantityKind } from '../units/kind.ts';
import { provenanceOf, published, type Sourced } from './provenance.ts';

export type CriterionId = keyof typeof data;

/** A figure that practice judges by. */
export interface Criterion extends Sourced {
  readonly id: CriterionId;
  readonly kind: QuantityKind;
  /** In the SI unit of its kind. */
  readonly value: number;
  /** As it was published, with its unit. */
  readonly published: string;
  readonly about: string;
}

const KINDS_USED: readonly QuantityKind[] = [
  'height',
  'length',
  'ratio',
  'share',
  'velocity',
  'pressure',
  'duration',
  'count',
];

const CRITERIA = new Map(criteria().map((one) => [one.id, one]));

/** A criterion by its id. */
export function criterion(id: CriterionId): Criterion {
  return CRITERIA.get(id) ?? criterionOf(id);
}

/** Every criterion of the handbook. */
export function criteria(): readonly Criterion[] {
  return (Object.keys(data) as CriterionId[]).map(criterionOf);
}

function criterionOf(id: CriterionId): Criterion {
  const { kind, value, about, source, provenance } = data[id];
  return {
    id,
    kind: kindOf(kind),
    value: published(value, kindOf(kind)),
    published: value,
    about,
    source,
    provenance: provenanceOf(provenance),
  };
}

function kindOf(word: string): QuantityKind {
  const kind = KINDS_USED.find((known) => known === word);
  if (kind !== undefined) return kind;
  throw new Error(`found quantity kind ${word} among the criteria, expected one of ${KINDS_USED.join(', ')}`);
}
