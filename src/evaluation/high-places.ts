import type { HeightNode } from './heights.ts';
import type { LineProfile } from './line-profile.ts';
import type { HighPlace, LossLaw, NodeIndex } from './system-model.ts';

/**
 * The high places of a line as nodes of the model, along the line and so the highest first. `add` takes a node in and gives its index; `lossUpTo`
 * gives the law of the pipe from its start to a share of its length.
 */
export function highPlaces(
  { line, brows }: LineProfile,
  make: { readonly add: (node: HeightNode) => NodeIndex; readonly lossUpTo: (share: number) => LossLaw },
): HighPlace[] {
  return brows.map(({ sample, height }) => {
    const position = { lon: line.lon[sample] ?? 0, lat: line.lat[sample] ?? 0 };
    const at = line.at[sample] ?? 0;
    // A line drawn a little beside meets the same summit or brow, so a small misplacement does not change its height.
    const node: HeightNode = { ground: height, dem: { position, slope: 0 }, errors: [] };
    return { node: make.add(node), at, loss: make.lossUpTo(line.horizontal > 0 ? at / line.horizontal : 0) };
  });
}
