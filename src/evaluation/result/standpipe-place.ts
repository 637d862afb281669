import { driveLengths } from '../../ram/cycle/drive-length.ts';
import type { Metres } from '../../units/quantity.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { PlaceStretch, StandpipePlaces } from './evaluation.ts';
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
  const margins = way.samples.map((s) => {
    const inLength = Math.min(s.toPump - rule.least, rule.most - s.toPump);
    return inLength < 0 ? { margin: inLength, lacks: 'length' as const } : { margin: s.cover, lacks: 'cover' as const };
  });
  const fits = way.samples.filter((_, i) => margins[i]?.lacks === 'cover' && (margins[i]?.margin ?? -1) >= 0);
  const best = fits.reduce<(typeof fits)[number] | null>(
    (nearest, s) =>
      nearest === null || Math.abs(s.toPump - lengths.usual) < Math.abs(nearest.toPump - lengths.usual) ? s : nearest,
    null,
  );
  return {
    rule,
    stretches: stretchesOf(way.samples.map((s) => ({ at: s.toPump, fits: fits.includes(s) }))),
    ...bestMargin(margins),
    best: best && { driveLength: best.toPump, ground: best.ground, height: way.source + freeboard - best.ground },
  };
}

type Margin = Pick<StandpipePlaces, 'margin' | 'lacks'>;

/** The most that any place keeps the rules by: those of length come first. */
function bestMargin(margins: readonly Margin[]): Margin {
  const inLength = margins.filter(({ lacks }) => lacks === 'cover');
  const candidates = inLength.length > 0 ? inLength : margins;
  return candidates.reduce((best, each) => (each.margin > best.margin ? each : best), candidates[0] ?? NOWHERE);
}

const NOWHERE: Margin = { margin: 0, lacks: 'length' };

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
