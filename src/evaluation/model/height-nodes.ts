import type { HeightNode } from '../site/height-net.ts';
import type { NodeIndex } from './system-model.ts';

/**
 * Nodes that may be moved in one run because no output depends on two of them: every destination, trough and high place
 * answers only for itself. Source, standpipe and pump each stand alone.
 */
export type NodeGroups = readonly (readonly NodeIndex[])[];

/** Takes height nodes in, each into a group of which no output uses two. */
export class NodeBook {
  readonly nodes: HeightNode[] = [];
  private readonly members = new Map<string, NodeIndex[]>();

  add(node: HeightNode, group: string): NodeIndex {
    const index = this.nodes.push(node) - 1;
    const others = this.members.get(group);
    if (others) others.push(index);
    else this.members.set(group, [index]);
    return index;
  }

  groups(): NodeGroups {
    return [...this.members.values()];
  }
}
