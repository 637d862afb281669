import { criterion } from '../../handbook/practice-criteria.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import { driveLengths } from '../../ram/cycle/drive-length.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { PlaceStretch, StandpipePlaces } from './evaluation.ts';

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

/** A sample of the way from pump back to source. */
interface WaySample {
  /** Length along the ground from the pump. */
  readonly toPump: Metres;
  readonly ground: Metres;
  /**
   * Water over the inlet of a standpipe here, with the plan's inlet height, beyond what it needs while the pump takes its
   * fill; below 0 the inlet draws air.
   */
  readonly cover: Metres;
}

interface WaterWay {
  readonly samples: readonly WaySample[];
  readonly source: Metres;
  readonly fall: Metres;
  readonly bore: Metres;
  readonly freeboard: Metres;
}

interface Step {
  readonly toPump: Metres;
  readonly ground: Metres;
}

/** Samples of a line from its end to its start, lengths along the ground counted on from `start`. */
function backwards({ line, height }: LineProfile, start: Metres): Step[] {
  const steps: Step[] = [];
  let length = start;
  for (let i = height.length - 1; i >= 0; i--) {
    const next = i + 1;
    if (next < height.length) {
      const level = valueAt(line.at, next) - valueAt(line.at, i);
      length += Math.hypot(level, line.known[i] && line.known[next] ? valueAt(height, next) - valueAt(height, i) : 0);
    }
    if (line.known[i]) steps.push({ toPump: length, ground: valueAt(height, i) });
  }
  return steps;
}

/** The drawn way of the water from source to pump, seen from the pump; null until supply line and drive pipe are drawn. */
function solvedWay(system: SolvedSystem): WaterWay | null {
  const { site, model, spread, layout } = system;
  const { supply, drive } = site.arrangement;
  const [supplyProfile, driveProfile] = [supply, drive].map((r) => (r ? site.profiles.get(r.id) : undefined));
  const [supplyPipe, drivePipe] = [supply, drive].map((r) => (r ? site.pipes.get(r.pipe) : undefined));
  if (!supplyProfile || !driveProfile || !supplyPipe || !drivePipe || model.standpipe === null) return null;
  const fromDrive = backwards(driveProfile, 0);
  const steps = [...fromDrive, ...backwards(supplyProfile, fromDrive.at(-1)?.toPump ?? 0)];
  const whole = steps.at(-1)?.toPump ?? 0;
  const source = (model.nodes[model.source]?.ground ?? 0) + model.waterLevel;
  const flow = valueAt(spread.likely, layout.shared('running-flow'));
  if (flow >= Number.MAX_VALUE) return null;
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const perMetre = pipeFlow({ ...supplyPipe, viscosity, length: 1, k: 0 }).headLoss(flow);
  const inlet = model.standpipe.inletHeight + model.standpipe.submergence;
  return {
    samples: steps.map(({ toPump, ground }) => ({
      toPump,
      ground,
      cover: source - perMetre * (whole - toPump) - ground - inlet,
    })),
    source,
    fall: valueAt(spread.likely, layout.shared('fall')),
    bore: drivePipe.bore,
    freeboard: criterion('standpipe-freeboard-least').value,
  };
}
