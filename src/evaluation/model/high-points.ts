import type { PlaceOnSlope } from '../../terrain/accuracy/height-covariance.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Ratio } from '../../units/quantity.ts';
import type { HeightNode } from '../site/heights.ts';
import type { LineProfile } from '../site/line-profile.ts';
import type { HighPlace, LossLaw, NodeIndex } from './system-model.ts';

/**
 * The high places of a line as nodes of the model, the highest first. `add` takes a node in and gives its index; `lossUpTo`
 * gives the law of the pipe from its start to a share of its length.
 */
export function highPlaces(
  { line, brows }: LineProfile,
  make: { readonly add: (node: HeightNode) => NodeIndex; readonly lossUpTo: (share: number) => LossLaw },
): HighPlace[] {
  return brows.map(({ sample, height }) => {
    const at = line.at[sample] ?? 0;
    const node: HeightNode = { ground: height, dem: placeOf(line, sample), errors: [] };
    return { node: make.add(node), at, loss: make.lossUpTo(line.horizontal > 0 ? at / line.horizontal : 0) };
  });
}

/** A sample with the doubt of its height that a point there would have, but for a shift along the line. */
function placeOf(line: GroundLine, sample: number): PlaceOnSlope {
  const { smoothing, other } = line.doubt;
  const accuracy = other?.accuracy.get(other.mark[sample] ?? 0);
  return {
    position: { lon: line.lon[sample] ?? 0, lat: line.lat[sample] ?? 0 },
    slope: slopeAcross(line, sample),
    smoothing: smoothing[sample] ?? 0,
    ...(accuracy && { accuracy }),
  };
}

/**
 * Slope across the line: √(s² − s_l²), s the slope of the ground, s_l that along the line. A line shifted along itself meets the
 * same summit or brow, one shifted to its side another height. Source: closed form.
 */
function slopeAcross(line: GroundLine, sample: number): Ratio {
  const along = Math.min(slopeBefore(line, sample), slopeBefore(line, sample + 1));
  return Math.sqrt(Math.max(0, (line.doubt.slope[sample] ?? 0) ** 2 - along ** 2));
}

/** Steepness of the line between a sample and the one before it; 0 where there is no ground. */
function slopeBefore({ at, ground, known }: GroundLine, sample: number): Ratio {
  if (!known[sample] || !known[sample - 1]) return 0;
  const run = (at[sample] ?? 0) - (at[sample - 1] ?? 0);
  return run > 0 ? Math.abs((ground[sample] ?? 0) - (ground[sample - 1] ?? 0)) / run : 0;
}
