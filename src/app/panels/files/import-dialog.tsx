import { useEffect, useRef } from 'preact/hooks';
import type { FoundItem } from '../../../plan/exchange/import-preview.ts';
import type { PointRole, RouteRole } from '../../../plan/model/plan.ts';
import { foundItemWords, heightsAsideWords } from '../../../report/exchange/import-words.ts';
import { problemSentence } from '../../../report/words/refusal-words.ts';
import { POINT_WORDS, ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { addImport, chooseImport, leaveImport } from '../../actions/import-actions.ts';
import { type ImportState, importing } from '../../state/jobs-store.ts';
import { plan } from '../../state/store.ts';
import { ProblemList } from '../fields/problem-list.tsx';

/** What a file of points and tracks holds, and what becomes of each part before any of it is in the plan. */
export function ImportDialog() {
  const state = importing.value;
  return state.kind === 'idle' ? null : <Dialog key={state.kind} state={state} />;
}

type Shown = Exclude<ImportState, { kind: 'idle' }>;

function Dialog({ state }: { readonly state: Shown }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="import" aria-labelledby="import-title" onCancel={leaveImport}>
      {state.kind === 'refused' ? <Refused {...state} /> : <Choosing {...state} />}
    </dialog>
  );
}

function Refused({ file, problems }: Extract<Shown, { kind: 'refused' }>) {
  return (
    <>
      <h2 id="import-title">{file} was not read</h2>
      <p>The plan on the page is as it was.</p>
      <ProblemList problems={problems} file={file} />
      <p class="buttons">
        <button type="button" onClick={leaveImport}>
          OK
        </button>
      </p>
    </>
  );
}

function Choosing({ preview, choices, problems }: Extract<Shown, { kind: 'choosing' }>) {
  const count = choices.points.length + choices.lines.length;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        addImport();
      }}
    >
      <h2 id="import-title">What {preview.file} holds</h2>
      <p class="note">Choose what each becomes. Nothing is in the plan until you add it; it is one step to undo.</p>
      <ul class="import-items">
        {preview.items.map((item) => (
          <Item key={item.key} item={item} role={roleOf(item, choices)} />
        ))}
      </ul>
      {preview.problems.length > 0 ? <ProblemList problems={preview.problems} file={preview.file} /> : null}
      {problems.length > 0 ? (
        <div role="alert" class="problem">
          <ProblemList problems={problems} file={preview.file} />
        </div>
      ) : null}
      <p class="buttons">
        <button type="submit" disabled={count === 0}>
          Add the {count} chosen
        </button>
        <button type="button" onClick={leaveImport}>
          Cancel
        </button>
      </p>
    </form>
  );
}

const LEFT_OUT = '';

function roleOf(item: FoundItem, choices: Extract<Shown, { kind: 'choosing' }>['choices']): string {
  const list: readonly { readonly item: string; readonly role: string }[] =
    item.kind === 'point' ? choices.points : choices.lines;
  return list.find((choice) => choice.item === item.key)?.role ?? LEFT_OUT;
}

function Item({ item, role }: { readonly item: FoundItem; readonly role: string }) {
  const { units } = plan.value;
  const roles = Object.entries(item.kind === 'point' ? POINT_WORDS : ROUTE_WORDS);
  const name = item.name === '' ? 'without a name' : item.name;
  const heights = heightsAsideWords(item.heights, units);
  return (
    <li>
      <div>
        <strong>{name}</strong>
        <p class="note">{foundItemWords(item, units)}</p>
        {heights === null ? null : <p class="note">{heights}</p>}
        {[...item.problems, ...item.remarks].map((problem) => (
          <p key={`${problem.code} ${problem.path}`} class="note">
            {problemSentence(problem)}
          </p>
        ))}
      </div>
      <select
        aria-label={`What ${name} becomes`}
        value={role}
        disabled={item.problems.length > 0}
        onChange={({ currentTarget: { value } }) =>
          chooseImport(item, value === LEFT_OUT ? null : (value as PointRole | RouteRole))
        }
      >
        <option value={LEFT_OUT}>left out</option>
        {roles.map(([value, words]) => (
          <option key={value} value={value} selected={value === role}>
            {words.name}
          </option>
        ))}
      </select>
    </li>
  );
}
