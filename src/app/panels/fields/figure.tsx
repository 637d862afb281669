import { h, type VNode } from 'preact';
import type { FigureNode } from '../../../report/figure/figure-node.ts';

/** Draws a figure of the report in the page. */
export function Figure({ node }: { readonly node: FigureNode }): VNode {
  return drawn(node, 0);
}

function drawn(node: FigureNode, key: number): VNode {
  const children = node.children.map((child, index) => (typeof child === 'string' ? child : drawn(child, index)));
  return h(node.tag, { ...node.attributes, key }, children);
}
