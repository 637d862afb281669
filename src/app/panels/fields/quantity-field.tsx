import { useId, useRef, useState } from 'preact/hooks';
import { quantitySentence } from '../../../report/words/quantity-words.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { QuantityKind, UnitSystem } from '../../../units/kind.ts';
import type { Problem } from '../../../units/outcome.ts';
import { type Habits, type QuantityRefusal, readQuantity } from '../../../units/read-quantity.ts';
import type { UnitName } from '../../../units/unit.ts';
import { writeEntered } from '../../../units/write-quantity.ts';

const BARE: Readonly<Record<UnitSystem, Partial<Record<QuantityKind, UnitName>>>> = {
  metric: {
    height: 'metre',
    length: 'metre',
    bore: 'millimetre',
    flow: 'litrePerMinute',
    'daily-volume': 'litrePerDay',
    volume: 'litre',
    pressure: 'bar',
    velocity: 'metrePerSecond',
    duration: 'second',
    temperature: 'celsius',
    mass: 'gram',
    share: 'percent',
  },
  us: {
    height: 'foot',
    length: 'foot',
    bore: 'inch',
    flow: 'usGallonPerMinute',
    'daily-volume': 'usGallonPerDay',
    volume: 'usGallon',
    pressure: 'psi',
    velocity: 'footPerSecond',
    duration: 'second',
    temperature: 'fahrenheit',
    mass: 'ounce',
    share: 'percent',
  },
};

/** How somebody who reads these units writes: what a number without a unit stands for, and what a comma is. */
function habitsOf(kind: QuantityKind, units: UnitSystem): Habits {
  const bareUnit = BARE[units][kind];
  return {
    ...(bareUnit === undefined ? {} : { bareUnit }),
    ...(units === 'us' ? { loneComma: 'thousands' } : {}),
  };
}

export interface QuantityFieldProps {
  readonly label: string;
  readonly value: number | null;
  readonly kind: QuantityKind;
  readonly units: UnitSystem;
  /** Whether the field may be left empty. */
  readonly optional?: boolean;
  readonly note?: string;
  /** Takes the value in SI; what is wrong with it comes back and is shown beside the field. */
  readonly onValue: (value: number | null) => readonly Problem[];
  /** How the value is written where the usual digits of its kind are too few. */
  readonly write?: (value: number, units: UnitSystem) => string;
  /** A name by which a page or a test finds the field. */
  readonly field?: string;
  /** Hides the label from sight where a table's heading says the same. */
  readonly bare?: boolean;
  /** Whether a telephone shows digits first. */
  readonly digits?: boolean;
}

/** A quantity that can be typed in any unit. What was typed stays until it can be taken. */
export function QuantityField(props: QuantityFieldProps) {
  const { label, value, kind, units, note, bare } = props;
  const shown = value === null ? '' : (props.write?.(value, units) ?? writeEntered(value, kind, units));
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<Wrong | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const take = (text: string) => {
    const problem = taken(text, props);
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  const choose = (reading: string) => {
    take(reading);
    input.current?.focus();
  };
  return (
    <div class={`field${wrong === null ? '' : ' wrong'}`}>
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <input
        ref={input}
        id={id}
        type="text"
        inputMode={props.digits ? 'decimal' : undefined}
        autocomplete="off"
        spellcheck={false}
        value={typed ?? shown}
        data-field={props.field}
        data-value={value ?? ''}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null && note === undefined ? undefined : `${id}-note`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => take(event.currentTarget.value)}
      />
      {wrong === null && note === undefined ? null : (
        <p id={`${id}-note`} class={wrong === null ? 'note' : 'problem'}>
          {wrong?.sentence ?? note}
          {wrong?.readings.map((reading) => (
            <button key={reading} type="button" class="quiet" onClick={() => choose(reading)}>
              {reading}
            </button>
          ))}
        </p>
      )}
    </div>
  );
}

/** What is wrong with a typed text, and what may have been meant. */
interface Wrong {
  readonly sentence: string;
  readonly readings: readonly string[];
}

/** Hands a typed text on; what is wrong with it, or null when it was taken. */
function taken(text: string, { optional, kind, units, onValue }: QuantityFieldProps): Wrong | null {
  if (text.trim() === '' && optional === true) return refusedBy(onValue(null));
  const reading = readQuantity(text, kind, habitsOf(kind, units));
  return reading.ok ? refusedBy(onValue(reading.value)) : unreadable(reading, units);
}

function refusedBy(problems: readonly Problem[]): Wrong | null {
  const sentence = firstProblem(problems);
  return sentence === null ? null : { sentence, readings: [] };
}

function unreadable(refusal: QuantityRefusal, units: UnitSystem): Wrong {
  return { sentence: quantitySentence(refusal, units), readings: refusal.readings ?? [] };
}
