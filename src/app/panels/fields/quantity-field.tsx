import { useId, useState } from 'preact/hooks';
import { quantitySentence } from '../../../report/words/quantity-words.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { QuantityKind, UnitSystem } from '../../../units/kind.ts';
import type { Problem } from '../../../units/outcome.ts';
import { readQuantity } from '../../../units/read-quantity.ts';
import type { UnitName } from '../../../units/unit.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';

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

/** The unit that a number without one stands for in a field of the page. */
function bareUnit(kind: QuantityKind, units: UnitSystem): UnitName | undefined {
  return BARE[units][kind];
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
  /** Hides the label from sight where a table's heading says the same. */
  readonly bare?: boolean;
}

/** A quantity that can be typed in any unit. What was typed stays until it can be taken. */
export function QuantityField(props: QuantityFieldProps) {
  const { label, value, kind, units, note, bare } = props;
  const shown = value === null ? '' : (props.write?.(value, units) ?? writeQuantity(value, kind, units));
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (text: string) => {
    const problem = taken(text, props);
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  return (
    <div class={`field${wrong === null ? '' : ' wrong'}`}>
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={typed ?? shown}
        data-value={value ?? ''}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null && note === undefined ? undefined : `${id}-note`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => take(event.currentTarget.value)}
      />
      {wrong === null && note === undefined ? null : (
        <p id={`${id}-note`} class={wrong === null ? 'note' : 'problem'}>
          {wrong ?? note}
        </p>
      )}
    </div>
  );
}

/** Hands a typed text on; the sentence that says what is wrong with it, or null when it was taken. */
function taken(text: string, { optional, kind, units, onValue }: QuantityFieldProps): string | null {
  if (text.trim() === '' && optional === true) return firstProblem(onValue(null));
  const reading = readQuantity(text, kind, bareUnit(kind, units));
  return reading.ok ? firstProblem(onValue(reading.value)) : quantitySentence(reading);
}
