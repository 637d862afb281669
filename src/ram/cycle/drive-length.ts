import type { Metres, Ratio } from '../../units/quantity.ts';

/**
 * Rules for the length of the drive pipe. They rule the beat rate more than the yield, so they warn and do not forbid.
 * Sources: L/D 150 to 1000: Calvert, as printed by Virtual Labs NITK Surathkal, Hydraulic ram experiment. 5 to 10 falls,
 * usually 7: R. W. Trullinger, Water supply, plumbing, and sewage disposal for country homes, USDA, 1914, p. 27.
 */
export const driveLengthRules = {
  boresLeast: 150,
  boresMost: 1000,
  fallsLeast: 5,
  fallsUsual: 7,
  fallsMost: 10,
} as const;

export interface LengthSpan {
  readonly least: Metres;
  readonly most: Metres;
}

export interface DriveLengths {
  readonly byBore: LengthSpan;
  readonly byFall: LengthSpan;
  /** What both rules allow; null when they conflict. */
  readonly both: LengthSpan | null;
  /** Seven falls, drawn into `both` or, when the rules conflict, to the nearer end of the rule by bore. */
  readonly usual: Metres;
}

/** Drive pipe lengths that the two rules of practice allow for a bore and a fall. */
export function driveLengths(bore: Metres, fall: Metres): DriveLengths {
  const rules = driveLengthRules;
  const byBore = { least: rules.boresLeast * bore, most: rules.boresMost * bore };
  const byFall = { least: rules.fallsLeast * fall, most: rules.fallsMost * fall };
  const common = { least: Math.max(byBore.least, byFall.least), most: Math.min(byBore.most, byFall.most) };
  const both = common.least <= common.most ? common : null;
  return { byBore, byFall, both, usual: clamp(rules.fallsUsual * fall, both ?? byBore) };
}

/** L/D, the length of the drive pipe in bores. */
export function lengthInBores(length: Metres, bore: Metres): Ratio {
  return length / bore;
}

function clamp(value: number, span: LengthSpan): number {
  return Math.min(span.most, Math.max(span.least, value));
}
