import type { Finding } from '../result/evaluation.ts';
import type { Verdict } from '../statistics/estimate.ts';
import type { FindingCode } from './catalogue.ts';
import type { Judged } from './finding.ts';

/**
 * When a cause tells an effect along: once it fails, or already when it is as bad as the effect, or only when it is worse, or
 * whenever it does not hold.
 */
type Reason = 'fails' | 'as-bad' | 'worse' | 'open';

interface Rule {
  readonly causes: readonly FindingCode[];
  readonly when: Reason;
  /** Whether cause and effect must be about the same thing. */
  readonly same: boolean;
}

const anywhere = (when: Reason, ...causes: FindingCode[]): Rule => ({ causes, when, same: false });
const there = (when: Reason, ...causes: FindingCode[]): Rule => ({ causes, when, same: true });

/** A pump that does not run at all: what it would deliver is not worth a word. */
const AT_A_STAND = anywhere('fails', 'source-short', 'supply-short', 'ram-stops', 'valve-sticks');

/** Effects, each with the findings that tell it along: what mends the cause mends the effect. */
const EFFECTS: Readonly<Partial<Record<FindingCode, readonly Rule[]>>> = {
  'drive-length-bore-least': [anywhere('as-bad', 'standpipe-place', 'standpipe-nowhere')],
  'drive-length-bore-most': [anywhere('as-bad', 'standpipe-place', 'standpipe-nowhere')],
  'drive-length-fall-least': [anywhere('as-bad', 'standpipe-place', 'standpipe-nowhere')],
  'drive-length-fall-most': [anywhere('as-bad', 'standpipe-place', 'standpipe-nowhere', 'fall-small')],
  'drive-bent': [anywhere('as-bad', 'drive-rises')],
  'drive-plastic': [anywhere('as-bad', 'lift-out-of-reach')],
  'beat-slow': [anywhere('as-bad', 'drive-length-bore-most', 'drive-length-fall-most')],
  'beat-fast': [anywhere('as-bad', 'drive-length-bore-least', 'drive-length-fall-least')],
  'standpipe-place': [anywhere('as-bad', 'standpipe-nowhere')],
  'lift-over-fall': [there('as-bad', 'lift-out-of-reach'), anywhere('as-bad', 'fall-small')],
  // What does not run brings nothing; what may stop is told before what it would then bring.
  'need-unmet': [
    AT_A_STAND,
    there('fails', 'lift-out-of-reach', 'valve-stays-shut', 'back-pressure', 'pump-head'),
    anywhere('fails', 'fall-small', 'supply-air', 'drive-rises'),
    anywhere('as-bad', 'source-short', 'supply-short', 'supply-air', 'fall-small', 'valve-sticks', 'ram-stops'),
    there('as-bad', 'lift-out-of-reach', 'valve-stays-shut', 'back-pressure', 'pump-head'),
  ],
  // The model of this very ram before the rules for any.
  'back-pressure': [there('as-bad', 'valve-stays-shut'), anywhere('fails', 'fall-small')],
  'delivery-head': [there('as-bad', 'valve-stays-shut', 'back-pressure'), anywhere('fails', 'fall-small')],
  // A column that breaks does not siphon, and a vent mends both; where the siphon takes the back pressure away, that is told.
  siphon: [there('open', 'siphon-breaks'), there('as-bad', 'back-pressure')],
  'siphon-breaks': [there('as-bad', 'back-pressure')],
  'blocked-pressure': [there('fails', 'pipe-pressure'), anywhere('fails', 'valve-sticks', 'ram-stops')],
  'trough-dry': [there('fails', 'gravity-air')],
};

/** Findings that may speak for another. */
export function tellersOf(code: FindingCode): readonly FindingCode[] {
  const causes = (EFFECTS[code] ?? []).flatMap((rule) => rule.causes);
  const sides = SIDES.find((codes) => codes.includes(code)) ?? [];
  return [...causes, ...sides.filter((other) => other !== code)];
}

/** Rules that look at one thing from several sides: the one that is missed by most speaks for all. */
const SIDES: readonly (readonly FindingCode[])[] = [
  ['drive-length-bore-least', 'drive-length-fall-least'],
  ['drive-length-bore-most', 'drive-length-fall-most'],
];

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, measure: 1, fails: 2 };

function tells(cause: Finding, effect: Finding, { causes, when, same }: Rule): boolean {
  if (cause.verdict === 'holds' || !causes.some((code) => code === cause.code)) return false;
  if (same && cause.about !== effect.about) return false;
  if (when === 'open') return true;
  if (when === 'fails') return cause.verdict === 'fails';
  const worse = RANK[cause.verdict] - RANK[effect.verdict];
  return when === 'worse' ? worse > 0 : worse >= 0;
}

/** By what share of the limit a value misses it. */
function miss({ value, limit, side }: Finding): number {
  if (value === null || limit === null) return 0;
  const short = side === 'at-least' ? limit - value.likely : value.likely - limit;
  return short / Math.max(Math.abs(limit), Number.MIN_VALUE);
}

/** Whether another finding of the same sides speaks for this one. */
function spokenFor(finding: Finding, all: readonly Finding[]): boolean {
  const sides = SIDES.find((codes) => codes.some((code) => code === finding.code));
  if (sides === undefined) return false;
  return all.some((other) => {
    if (other.code === finding.code || other.about !== finding.about) return false;
    if (!sides.some((code) => code === other.code)) return false;
    const worse = RANK[other.verdict] - RANK[finding.verdict];
    return worse > 0 || (worse === 0 && miss(other) > miss(finding));
  });
}

/**
 * Everything judged, without what another finding tells along. What holds stays: it is no news, but it was checked. The
 * verdicts rest on everything judged.
 */
export function toldOnce(judged: readonly Judged[]): Judged[] {
  const all = judged.map(({ finding }) => finding);
  return judged.filter(({ finding }) => {
    if (finding.verdict === 'holds') return true;
    const rules: readonly Rule[] = EFFECTS[finding.code as FindingCode] ?? [];
    if (rules.some((rule) => all.some((cause) => tells(cause, finding, rule)))) return false;
    return !spokenFor(finding, all);
  });
}
