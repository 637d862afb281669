import type { QuantityKind } from '../../units/kind.ts';
import type { FindingCode } from '../findings/catalogue.ts';
import type { Judged } from '../findings/finding.ts';
import type { MeasureFirst } from '../result/evaluation.ts';
import { laidLength } from '../site/pipe-of-plan.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { Z90, Z975 } from '../statistics/normal.ts';

/** Something that a tape, a rule or a watch settles, and that the delivery does not hang on. */
interface ByHand {
  readonly quantity: string;
  readonly unit: QuantityKind;
  /** What is measured, where that is not what the finding is about. */
  readonly at?: 'drive' | 'pump' | 'trough';
  /** Whether it takes a pump that runs. */
  readonly running?: true;
}

const DRIVE_LENGTH: ByHand = { quantity: 'drive-length', unit: 'length', at: 'drive' };
const BEATS: ByHand = { quantity: 'beats', unit: 'count', running: true };

const ARRIVING: ByHand = { quantity: 'line-flow', unit: 'flow', at: 'trough', running: true };

const BY_HAND: Readonly<Partial<Record<FindingCode, ByHand>>> = {
  'run-unlike': { quantity: 'pump-efficiency', unit: 'share', at: 'pump', running: true },
  'reading-contradicts': { quantity: 'ground', unit: 'height' },
  'standpipe-place': DRIVE_LENGTH,
  'drive-length-bore-least': DRIVE_LENGTH,
  'drive-length-bore-most': DRIVE_LENGTH,
  'drive-length-fall-least': DRIVE_LENGTH,
  'drive-length-fall-most': DRIVE_LENGTH,
  'drive-rises': { quantity: 'drive-line', unit: 'height' },
  'drive-bent': { quantity: 'drive-line', unit: 'height' },
  'drive-plastic': { quantity: 'pipe-wall', unit: 'bore' },
  'pump-bore': { quantity: 'bores', unit: 'bore' },
  'waste-valve-low': { quantity: 'valve-height', unit: 'height' },
  'air-ripple': { quantity: 'gauge-swing', unit: 'height', running: true },
  'frost-depth': { quantity: 'frost-depth', unit: 'height' },
  'velocity-high': { quantity: 'line-flow', unit: 'flow', at: 'trough', running: true },
  'back-pressure': { quantity: 'pump-back-pressure', unit: 'height', at: 'pump' },
  'delivery-head': { quantity: 'pump-back-pressure', unit: 'height', at: 'pump' },
  'supply-bore': { quantity: 'bores', unit: 'bore' },
  'storage-short': { quantity: 'tank-volume', unit: 'volume' },
  'standpipe-nowhere': { quantity: 'standpipe-level', unit: 'height' },
  'ram-stops': { quantity: 'fall', unit: 'height', at: 'pump' },
  'trough-dry': ARRIVING,
  'trough-first-hour': ARRIVING,
  'beat-slow': BEATS,
  'beat-fast': BEATS,
};

/** What is thought of the drive pipe's length, and half its doubt to aim for. */
function drivePipe({ site }: SolvedSystem): Pick<MeasureFirst, 'expected' | 'aim'> {
  const { drive } = site.arrangement;
  const slope = drive && site.profiles.get(drive.id)?.line.slope;
  if (slope == null) return { expected: null, aim: null };
  const expected = laidLength(slope).estimate;
  return { expected, aim: ((Z975 / Z90) * (expected.high - expected.likely)) / 2 };
}

/** What is measured: the drive pipe, the pump, or the trough at the end of a line. */
function placeOf({ site }: SolvedSystem, about: string, at: ByHand['at']): string {
  const { arrangement } = site;
  if (at === 'trough') return arrangement.gravity.find(({ route }) => route.id === about)?.trough.id ?? about;
  return (at === undefined ? null : arrangement[at]?.id) ?? about;
}

function entryOf(system: SolvedSystem, { finding }: Judged, { quantity, unit, at }: ByHand): MeasureFirst {
  const about = placeOf(system, finding.about, at);
  const guess = quantity === DRIVE_LENGTH.quantity ? drivePipe(system) : { expected: null, aim: null };
  return { quantity, about, settles: [finding.code], share: 0, ...guess, unit };
}

/** One entry a quantity and place, with everything it settles. */
function joined(entries: readonly MeasureFirst[]): MeasureFirst[] {
  const found = new Map<string, MeasureFirst>();
  for (const entry of entries) {
    const key = `${entry.quantity} ${entry.about}`;
    const known = found.get(key);
    found.set(key, known ? { ...known, settles: [...new Set([...known.settles, ...entry.settles])] } : entry);
  }
  return [...found.values()];
}

/** What settles open findings that no height, flow or efficiency does: beforehand, or only once a pump runs. */
export function measuredByHand(
  system: SolvedSystem,
  open: readonly Judged[],
  when: { readonly running: boolean },
): MeasureFirst[] {
  return joined(
    open.flatMap((judged) => {
      const by = BY_HAND[judged.finding.code as FindingCode];
      return by === undefined || (by.running === true) !== when.running ? [] : [entryOf(system, judged, by)];
    }),
  );
}

/** The same list, each quantity once, with the levels whose two heights come from different files in it. */
export function withFiles(
  system: SolvedSystem,
  open: readonly Judged[],
  list: readonly MeasureFirst[],
): MeasureFirst[] {
  const { source, pump } = system.site.arrangement;
  const across = open.flatMap(({ finding }): MeasureFirst[] => {
    if (finding.code !== 'across-files') return [];
    const fall = finding.about === source?.id;
    const about = fall ? (pump?.id ?? finding.about) : finding.about;
    const quantity = fall ? 'fall' : 'lift';
    return [{ quantity, about, settles: [finding.code], share: 0, expected: null, aim: null, unit: 'height' }];
  });
  return joined([...list, ...across]);
}
