import { useEffect, useRef } from 'preact/hooks';
import type { FieldChange } from '../../../plan/exchange/field-changes.ts';
import { fieldChangeWords } from '../../../report/exchange/field-change-words.ts';
import { chooseChange, leaveReturned, takeReturned } from '../../files/field-actions.ts';
import { type MergeState, merging } from '../../state/field-store.ts';
import { plan } from '../../state/store.ts';
import { ProblemList } from '../fields/problem-list.tsx';

/** What came back from out of doors: a list of what was changed, each taken or left. */
export function MergeDialog() {
  const state = merging.value;
  return state.kind === 'idle' ? null : <Dialog key={state.kind} state={state} />;
}

type Shown = Exclude<MergeState, { kind: 'idle' }>;

function Dialog({ state }: { readonly state: Shown }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="import merge" aria-labelledby="merge-title" onCancel={leaveReturned}>
      {state.kind === 'refused' ? <Refused {...state} /> : <Choosing {...state} />}
    </dialog>
  );
}

function Refused({ file, problems }: Extract<Shown, { kind: 'refused' }>) {
  return (
    <>
      <h2 id="merge-title">{file} was not read</h2>
      <p>The plan on the page is as it was.</p>
      <ProblemList problems={problems} file={file} />
      <p class="buttons">
        <button type="button" onClick={leaveReturned}>
          All right
        </button>
      </p>
    </>
  );
}

function Choosing({ file, back, changes, chosen, problems }: Extract<Shown, { kind: 'choosing' }>) {
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        takeReturned();
      }}
    >
      <h2 id="merge-title">What {file} changes</h2>
      <p class="note">
        {changes.length === 0
          ? 'Nothing in it differs from the plan on the page.'
          : 'Choose what to take. Nothing is in the plan until you take it; it is one step to undo.'}
      </p>
      <ul class="import-items merge-items">
        {changes.map((change) => (
          <Row key={change.key} change={change} taken={chosen.has(change.key)} back={back.plan} />
        ))}
      </ul>
      {problems.length > 0 ? (
        <div role="alert" class="problem">
          <ProblemList problems={problems} file={file} />
        </div>
      ) : null}
      <p class="buttons">
        {changes.length === 0 ? null : (
          <button type="submit" disabled={chosen.size === 0}>
            Take the {chosen.size} chosen
          </button>
        )}
        <button type="button" onClick={leaveReturned}>
          Cancel
        </button>
      </p>
    </form>
  );
}

interface RowProps {
  readonly change: FieldChange;
  readonly taken: boolean;
  readonly back: Parameters<typeof fieldChangeWords>[1];
}

function Row({ change, taken, back }: RowProps) {
  return (
    <li>
      <label>
        <input
          type="checkbox"
          checked={taken}
          onChange={({ currentTarget }) => chooseChange(change.key, currentTarget.checked)}
        />{' '}
        {fieldChangeWords(change, back, plan.value.units)}
      </label>
    </li>
  );
}
