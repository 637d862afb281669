import { driveLengths } from '../ram/drive-length.ts';
import type { Metres } from '../units/quantity.ts';
import type { PlaceStretch, StandpipePlaces } from './evaluation.ts';
import type { SolvedSystem } from './system.ts';
import { solvedWay } from './water-way.ts';

/**
 * Where along the drawn way from source to pump a standpipe can stand: the drive pipe keeps its rules of length, and the
 * supply line brings what the pump takes with the inlet covered.
 */
export function standpipePlaces(system: SolvedSystem): StandpipePlaces | null {
  const way = solvedWay(system);
  if (way === null) return null;
  const { fall, bore, freeboard } = way;
  const lengths = driveLengths(bore, fall);
  const rule = lengths.both ?? lengths.byBore;
  const fits = way.samples.filter((s) => s.toPump >= rule.least && s.toPump <= rule.most && s.covered);
  const best = fits.reduce<(typeof fits)[number] | null>(
    (nearest, s) =>
      nearest === null || Math.abs(s.toPump - lengths.usual) < Math.abs(nearest.toPump - lengths.usual) ? s : nearest,
    null,
  );
  return {
    stretches: stretchesOf(way.samples.map((s) => ({ at: s.toPump, fits: fits.includes(s) }))),
    best: best && { driveLength: best.toPump, ground: best.ground, height: way.source + freeboard - best.ground },
  };
}

function stretchesOf(samples: readonly { readonly at: Metres; readonly fits: boolean }[]): PlaceStretch[] {
  const found: PlaceStretch[] = [];
  let from: Metres | null = null;
  let to: Metres = 0;
  for (const { at, fits } of samples) {
    if (fits) {
      from ??= at;
      to = at;
    } else if (from !== null) {
      found.push({ from, to });
      from = null;
    }
  }
  return from === null ? found : [...found, { from, to }];
}
