import type { Turning } from './evaluation.ts';
import type { HeightNode } from './heights.ts';
import type { LineProfile } from './line-profile.ts';
import type { HighPlace, LossLaw, NodeIndex } from './system-model.ts';

/** High points of one line that a run looks at. */
const MOST_HIGH_PLACES = 6;

/**
 * Summits that can govern at some flow: those that no later summit overtops. Ground and loss up to a place both count, and
 * the loss grows along the line, so a lower summit further along may govern and one before a higher one may not.
 */
function mayGovern(summits: readonly Turning[]): readonly Turning[] {
  return summits.filter((s) => !summits.some((other) => other.at > s.at && other.ground >= s.ground));
}

/**
 * The highest summits of a line as nodes of the model. `add` takes a node in and gives its index; `lossUpTo` gives the law
 * of the pipe from its start to a share of its length.
 */
export function highPlaces(
  profile: LineProfile,
  make: { readonly add: (node: HeightNode) => NodeIndex; readonly lossUpTo: (share: number) => LossLaw },
): HighPlace[] {
  const { line } = profile;
  return mayGovern(profile.turnings.filter((t) => t.kind === 'summit'))
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
