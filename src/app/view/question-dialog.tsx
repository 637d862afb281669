import { useEffect, useRef } from 'preact/hooks';
import { type AskedWords, askedWords, EPSG_PATTERN, epsgAnswer } from '../../report/question-words.ts';
import type { FileAnswers } from '../../worker/messages.ts';
import { answerQuestions, hideTerrainRefusal } from '../actions/terrain-actions.ts';
import { type FileState, terrainFile } from '../state/store.ts';

type Asking = Extract<FileState, { kind: 'question' }>;

/** What only the user can say about an elevation file, asked before it is opened. */
export function QuestionDialog() {
  const state = terrainFile.value;
  return state.kind === 'question' ? <Questions state={state} /> : null;
}

function Questions({ state }: { readonly state: Asking }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const asked = state.questions.map((question) => ({ file: question.file, ...askedWords(question) }));
  const answer = (event: SubmitEvent, form: HTMLFormElement) => {
    event.preventDefault();
    void answerQuestions(state, answersOf(asked, new FormData(form)));
  };
  return (
    <dialog ref={dialog} aria-labelledby="question-title" onCancel={hideTerrainRefusal}>
      <form onSubmit={(event) => answer(event, event.currentTarget)}>
        <h2 id="question-title">Only you can say</h2>
        {asked.map((words, index) => (
          <fieldset key={words.sentence}>
            <legend>{words.sentence}</legend>
            {words.typed === 'crs' && <EpsgField name={`question-${index}`} />}
            {words.choices.map((choice, number) => (
              <label key={choice.words} class="check">
                <input type="radio" name={`question-${index}`} value={number} required />
                {choice.words}
              </label>
            ))}
          </fieldset>
        ))}
        <p class="buttons">
          <button type="submit">Open the file so</button>
          <button type="button" onClick={hideTerrainRefusal}>
            Leave it
          </button>
        </p>
      </form>
    </dialog>
  );
}

function EpsgField({ name }: { readonly name: string }) {
  return (
    <label>
      EPSG code <input type="text" name={name} pattern={EPSG_PATTERN} placeholder="EPSG:32633" required />
    </label>
  );
}

function answersOf(asked: readonly (AskedWords & { readonly file: string })[], form: FormData): FileAnswers {
  const answers: Record<string, FileAnswers[string]> = {};
  asked.forEach(({ file, choices, typed }, index) => {
    const given = String(form.get(`question-${index}`));
    const answer = typed === 'crs' ? epsgAnswer(given) : choices[Number(given)]?.answer;
    if (answer) answers[file] = { ...answers[file], ...answer };
  });
  return answers;
}
