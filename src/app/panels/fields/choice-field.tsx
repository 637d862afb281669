import { useId, useState } from 'preact/hooks';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

export interface ChoiceFieldProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly { readonly value: T; readonly words: string }[];
  /** Takes the choice; what is wrong with it comes back and is shown beneath. */
  readonly onValue: (value: T) => readonly Problem[];
  readonly bare?: boolean;
}

/** One of several named things. */
export function ChoiceField<T extends string>({ label, value, choices, onValue, bare }: ChoiceFieldProps<T>) {
  const id = useId();
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (name: string) => {
    const chosen = choices.find((choice) => choice.value === name);
    if (chosen !== undefined) setWrong(firstProblem(onValue(chosen.value)));
  };
  return (
    <div class={`field choice${wrong === null ? '' : ' wrong'}`}>
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-note`}
        onChange={(event) => take(event.currentTarget.value)}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value} selected={choice.value === value}>
            {choice.words}
          </option>
        ))}
      </select>
      {wrong === null ? null : (
        <p id={`${id}-note`} class="problem">
          {wrong}
        </p>
      )}
    </div>
  );
}
