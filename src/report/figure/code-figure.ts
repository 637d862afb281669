import { correction, generate } from 'lean-qr';
import { type FigureNode, figureNode } from './figure-node.ts';

/** Empty modules around a code. Source: ISO/IEC 18004, section 6.3.8. */
const QUIET = 4;

/** Modules along the side of a code that telephones still read from paper. */
export const MOST_MODULES = 177;

/**
 * A text as a square code to photograph (ISO/IEC 18004), for paper: dark squares in rows on white. Null where the text is too
 * long for one. With half the room to spare it bears more dirt.
 */
export function codeFigure(text: string, label: string): FigureNode | null {
  const code = codeOf(text);
  if (code === null) return null;
  const side = code.size + 2 * QUIET;
  let path = '';
  for (let y = 0; y < code.size; y += 1) {
    for (let x = 0; x < code.size; x += 1) {
      if (!code.get(x, y)) continue;
      let end = x + 1;
      while (end < code.size && code.get(end, y)) end += 1;
      path += `M${x + QUIET} ${y + QUIET}h${end - x}v1h${x - end}z`;
      x = end;
    }
  }
  return figureNode(
    'svg',
    {
      class: 'code-figure',
      viewBox: `0 0 ${side} ${side}`,
      role: 'img',
      'aria-label': label,
      'shape-rendering': 'crispEdges',
    },
    figureNode('rect', { width: side, height: side, fill: '#fff' }),
    figureNode('path', { d: path, fill: '#000' }),
  );
}

/** Below this size a code is made with more correction. */
const ROOMY = 97;

function codeOf(text: string) {
  try {
    const plain = generate(text, { minCorrectionLevel: correction.L, maxCorrectionLevel: correction.L });
    if (plain.size > ROOMY) return plain;
    return generate(text, { minCorrectionLevel: correction.M });
  } catch {
    return null;
  }
}
