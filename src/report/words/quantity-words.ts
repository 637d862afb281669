import type { QuantityRefusal } from '../../units/read-quantity.ts';

/** Why a typed quantity could not be taken, and what would be. */
export function quantitySentence(refusal: QuantityRefusal): string {
  switch (refusal.code) {
    case 'empty':
      return `Nothing is typed here. Type ${refusal.expected}.`;
    case 'not-a-number':
      return `“${refusal.found}” is no number. Type ${refusal.expected}.`;
    case 'ambiguous-number':
      return `“${refusal.found}” can be read as ${refusal.expected}. Type it without the comma.`;
    case 'unit-missing':
      return `“${refusal.found}” has no unit. Type ${refusal.expected}.`;
    case 'unit-unknown':
      return `“${refusal.found}” has a unit that is not known here. Type ${refusal.expected}.`;
    case 'unit-unfit':
      return `“${refusal.found}” has a unit of another kind. Type ${refusal.expected}.`;
    case 'parts-unfit':
      return `The parts of “${refusal.found}” do not belong together. Type ${refusal.expected}.`;
  }
}
