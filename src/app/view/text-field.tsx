import { useId } from 'preact/hooks';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly note?: string;
  readonly bare?: boolean;
}

/** A line of text, taken when the field is left or Enter is pressed. */
export function TextField({ label, value, onValue, note, bare }: TextFieldProps) {
  const id = useId();
  return (
    <div class="field text">
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={value}
        aria-describedby={note === undefined ? undefined : `${id}-note`}
        onChange={(event) => onValue(event.currentTarget.value)}
      />
      {note === undefined ? null : (
        <p id={`${id}-note`} class="note">
          {note}
        </p>
      )}
    </div>
  );
}

export interface ChoiceFieldProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly { readonly value: T; readonly words: string }[];
  readonly onValue: (value: T) => void;
  readonly bare?: boolean;
}

/** One of several named things. */
export function ChoiceField<T extends string>({ label, value, choices, onValue, bare }: ChoiceFieldProps<T>) {
  const id = useId();
  return (
    <div class="field choice">
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          const chosen = choices.find((choice) => choice.value === event.currentTarget.value);
          if (chosen !== undefined) onValue(chosen.value);
        }}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value} selected={choice.value === value}>
            {choice.words}
          </option>
        ))}
      </select>
    </div>
  );
}
