import { useId, useState } from 'preact/hooks';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

export interface ReadFieldProps<T> {
  readonly label: string;
  readonly note: string;
  readonly value: T;
  readonly write: (value: T) => string;
  /** Gives the value or a sentence that says what is wrong with the text. */
  readonly read: (
    text: string,
  ) => { readonly ok: true; readonly value: T } | { readonly ok: false; readonly sentence: string };
  readonly onValue: (value: T) => readonly Problem[];
}

/** A field with a reader of its own; what was typed stays until it can be taken. */
export function ReadField<T>({ label, note, value, write, read, onValue }: ReadFieldProps<T>) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (text: string) => {
    const reading = read(text);
    const problem = reading.ok ? firstProblem(onValue(reading.value)) : reading.sentence;
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  return (
    <div class={`field wide${wrong === null ? '' : ' wrong'}`}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typed ?? write(value)}
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-note`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => take(event.currentTarget.value)}
      />
      <p id={`${id}-note`} class={wrong === null ? 'note' : 'problem'}>
        {wrong ?? note}
      </p>
    </div>
  );
}
