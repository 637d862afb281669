import type { DiagnosedCause, Diagnosis } from '../../diagnosis/diagnose.ts';
import type { CauseCode } from '../../diagnosis/model/causes.ts';
import type { Channel, RamState } from '../../diagnosis/model/readings.ts';
import type { NextTest, TestCode } from '../../diagnosis/ranking/next-tests.ts';
import { MODEL_CAUTION, noteWords, PRESSURE_CAUTION } from '../../diagnosis/words/note-words.ts';
import { DELIVERY, DELIVERY_KEY, READING_KEYS, YES_NO_KEYS } from '../../diagnosis/words/reading-keys.ts';
import { remedyWords } from '../../diagnosis/words/remedy-words.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { ReadAt } from './readings-file.ts';

type Told = number | boolean | string | null;

/** What the `diagnose` command answers; every number is finite, null where there is none. */
export interface DiagnosisAnswer {
  readonly causes: readonly {
    readonly code: CauseCode;
    readonly chance: number;
    readonly remedy: string;
    readonly expected: Readonly<Record<string, Told>>;
  }[];
  readonly next: readonly {
    readonly test: TestCode;
    readonly bits: number;
    readonly minutes: number;
    readonly shows: Readonly<Partial<Record<CauseCode, Told>>>;
  }[];
  readonly note: string;
}

export function diagnosisAnswer(found: Diagnosis, readAt: ReadAt, units: UnitSystem): DiagnosisAnswer {
  return {
    causes: found.causes.map((cause) => ({
      code: cause.code,
      chance: cause.chance,
      remedy: remedyWords(cause.remedy, units),
      expected: expectedOf(cause, readAt),
    })),
    next: found.next.map(nextOf),
    note: [...found.notes.map(noteWords), MODEL_CAUTION, PRESSURE_CAUTION].join(' '),
  };
}

function expectedOf({ expected }: DiagnosedCause, readAt: ReadAt): Readonly<Record<string, Told>> {
  if (expected === null) return {};
  const told: Record<string, Told> = { state: expected.state satisfies RamState };
  for (const { channel, key, factor } of READING_KEYS) told[key] = inUnits(expected.values[channel], factor);
  const delivery = readAt === 'pump' ? expected.values.deliveryAtPump : expected.values.deliveryAtTank;
  told[DELIVERY_KEY] = inUnits(delivery, DELIVERY.factor);
  told.delivery_read_at = readAt;
  for (const { channel, key } of YES_NO_KEYS) told[key] = yesNo(expected.values[channel]);
  return told;
}

function nextOf({ test, bits, shows }: NextTest): DiagnosisAnswer['next'][number] {
  return {
    test: test.code,
    bits,
    minutes: test.minutes,
    shows: Object.fromEntries(shows.map(({ code, value }) => [code, toldBy(test.channel, value)])),
  };
}

/** A value in the unit of its reading's key. */
function toldBy(channel: Channel, value: number | null): Told {
  if (YES_NO_KEYS.some((row) => row.channel === channel)) return yesNo(value);
  const row = READING_KEYS.find((one) => one.channel === channel) ?? DELIVERY;
  return inUnits(value, row.factor);
}

const inUnits = (value: number | null, factor: number): number | null => (value === null ? null : value / factor);
const yesNo = (value: number | null): boolean | null => (value === null ? null : value >= 1 / 2);
