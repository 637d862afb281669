import { useId, useState } from 'preact/hooks';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

export interface CountFieldProps {
  readonly label: string;
  readonly value: number;
  readonly onValue: (value: number) => readonly Problem[];
}

/** How many of something; the plan's own check says what number is too many or too few. */
export function CountField({ label, value, onValue }: CountFieldProps) {
  const id = useId();
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (input: HTMLInputElement) => {
    const typed = input.valueAsNumber;
    setWrong(Number.isFinite(typed) ? firstProblem(onValue(typed)) : 'Type a whole number.');
  };
  return (
    <div class={`field count${wrong === null ? '' : ' wrong'}`}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="number"
        step="1"
        min="0"
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-note`}
        onChange={(event) => take(event.currentTarget)}
      />
      {wrong === null ? null : (
        <p id={`${id}-note`} class="problem">
          {wrong}
        </p>
      )}
    </div>
  );
}
