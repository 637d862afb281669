import type { HeightNode } from './heights.ts';
import type { LineProfile } from './line-profile.ts';
import type { HighPlace, LossLaw, NodeIndex } from './system-model.ts';

/** High points of one line that a run looks at: the highest ones. More would not govern. */
const MOST_HIGH_PLACES = 3;

/**
 * The highest summits of a line as nodes of the model. `add` takes a node in and gives its index; `lossUpTo` gives the law
 * of the pipe from its start to a share of its length.
 */
export function highPlaces(
  profile: LineProfile,
  make: { readonly add: (node: HeightNode) => NodeIndex; readonly lossUpTo: (share: number) => LossLaw },
): HighPlace[] {
  const { line } = profile;
  return profile.turnings
    .filter((t) => t.kind === 'summit')
    .toSorted((a, b) => b.ground - a.ground)
    .slice(0, MOST_HIGH_PLACES)
    .map((summit) => {
      const position = { lon: line.lon[summit.sample] ?? 0, lat: line.lat[summit.sample] ?? 0 };
      // The ground is level at a summit, so a small misplacement of the drawn line does not change its height.
      const node: HeightNode = { ground: summit.ground, dem: { position, slope: 0 }, errors: [] };
      return {
        node: make.add(node),
        at: summit.at,
        loss: make.lossUpTo(line.horizontal > 0 ? summit.at / line.horizontal : 0),
      };
    });
}
