import { visibleText } from '../../units/visible-text.ts';
import type { FigureChild, FigureNode } from './figure-node.ts';

/** Writes a figure as SVG text, one element a line, every name and text escaped. */
export function svgText(figure: FigureNode): string {
  return `${lines(figure, '').join('\n')}\n`;
}

function lines(node: FigureNode, indent: string): string[] {
  const head = `${indent}<${node.tag}${attributeText(node.attributes)}`;
  if (node.children.length === 0) return [`${head}/>`];
  if (node.children.every((child) => typeof child === 'string')) {
    return [`${head}>${node.children.map(escapeText).join('')}</${node.tag}>`];
  }
  return [`${head}>`, ...node.children.flatMap((child) => childLines(child, `${indent} `)), `${indent}</${node.tag}>`];
}

function childLines(child: FigureChild, indent: string): string[] {
  return typeof child === 'string' ? [indent + escapeText(child)] : lines(child, indent);
}

function attributeText(attributes: Readonly<Record<string, string>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escapeText(value).replaceAll('"', '&quot;')}"`)
    .join('');
}

/** Control characters that XML cannot hold are dropped; names come from files. */
export function escapeText(text: string): string {
  return [...text]
    .filter((character) => character >= ' ' || character === '\n' || character === '\t')
    .map(visibleText)
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}
