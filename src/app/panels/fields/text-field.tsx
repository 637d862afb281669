import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  /** Takes the text; what is wrong with it comes back and is shown beneath. */
  readonly onValue: (value: string) => readonly Problem[];
  readonly bare?: boolean;
}

/** What was typed is taken after so long a rest, ms: a tab that dies before the field is left loses no more. */
const TYPING_REST_MS = 700;

/**
 * A line of text, taken when the field is left, Enter is pressed, or the typing rests. What was typed stays until it can be taken.
 */
export function TextField({ label, value, onValue, bare }: TextFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(rest.current), []);
  const type = (text: string) => {
    setTyped(text);
    clearTimeout(rest.current);
    // What cannot be taken yet is still being typed: nothing is said of it before the field is left.
    rest.current = setTimeout(() => onValue(text), TYPING_REST_MS);
  };
  const take = (text: string) => {
    clearTimeout(rest.current);
    const problem = firstProblem(onValue(text));
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  return (
    <div class={`field text${wrong === null ? '' : ' wrong'}`}>
      <label for={id} class={bare ? 'unseen' : ''}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typed ?? value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-note`}
        onInput={(event) => type(event.currentTarget.value)}
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
