import { useId, useState } from 'preact/hooks';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

export interface CellFieldProps {
  readonly label: string;
  /** What stands in the field until something is typed. */
  readonly shown: string;
  /** Takes the typed text, empty for nothing; gives the sentence that says what is wrong with it, or what the plan found. */
  readonly onText: (text: string) => string | readonly Problem[];
  /** Shows the first words of the label above the field; left out, only a screen reader hears it. */
  readonly heading?: string;
}

/** A small field inside a table. What was typed stays until it can be taken. */
export function CellField({ label, shown, onText, heading }: CellFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (text: string) => {
    const answer = onText(text.trim());
    const problem = typeof answer === 'string' ? answer : firstProblem(answer);
    setWrong(problem);
    setTyped(problem === null ? null : text);
  };
  return (
    <div class={`field cell${wrong === null ? '' : ' wrong'}`}>
      <label for={id} class={heading === undefined ? 'unseen' : ''}>
        {heading}
        {heading === undefined ? label : <span class="unseen"> {label}</span>}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={typed ?? shown}
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
