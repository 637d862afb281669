import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { CAUTIONS, CODES_DECIDE } from './caution-words.ts';
import { list, paragraph, part, strong } from './sheet-node.ts';

/** The cautions in full. */
export function cautionsPart(): FigureNode | null {
  const items = CAUTIONS.map(({ title, short, more }) => [strong(`${title}.`), ` ${short} ${more}`.trimEnd()]);
  return part('Cautions', list(items, 'cautions'), paragraph(CODES_DECIDE, 'decides'));
}

/** The short of each caution in one paragraph, for the owner. */
export function shortCautions(): readonly FigureNode[] {
  const words = CAUTIONS.flatMap(({ title, short }) => [strong(`${title}.`), ` ${short} `]);
  return [figureNode('p', { class: 'small' }, ...words), paragraph(CODES_DECIDE, 'decides small')];
}
