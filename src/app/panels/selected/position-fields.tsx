import { useId, useState } from 'preact/hooks';
import type { Position } from '../../../geodesy/position.ts';
import { readDegrees, writeDegrees } from '../../../report/words/position-words.ts';

export interface PositionFieldsProps {
  readonly label: string;
  readonly position: Position;
  readonly onPosition: (position: Position) => string | null;
}

/** Longitude and latitude of a place, in degrees, typed in one field each. */
export function PositionFields({ label, position, onPosition }: PositionFieldsProps) {
  return (
    <fieldset class="position-fields" aria-label={label}>
      <DegreesField
        name="Longitude"
        value={position.lon}
        onValue={(lon) => onPosition({ ...position, lon })}
        axis="lon"
      />
      <DegreesField
        name="Latitude"
        value={position.lat}
        onValue={(lat) => onPosition({ ...position, lat })}
        axis="lat"
      />
    </fieldset>
  );
}

interface DegreesFieldProps {
  readonly name: string;
  readonly value: number;
  readonly axis: 'lon' | 'lat';
  readonly onValue: (value: number) => string | null;
}

function DegreesField({ name, value, axis, onValue }: DegreesFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (text: string) => {
    const read = readDegrees(text, axis);
    const problem = read.ok ? onValue(read.value) : read.sentence;
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  return (
    <div class={`field${wrong === null ? '' : ' wrong'}`}>
      <label for={id}>{name}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={typed ?? writeDegrees(value)}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-note`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => take(event.currentTarget.value)}
      />
      {wrong === null ? null : (
        <p id={`${id}-note`} class="problem">
          {wrong}
        </p>
      )}
    </div>
  );
}
