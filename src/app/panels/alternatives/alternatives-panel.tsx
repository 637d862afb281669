import './alternatives.css';
import { otherSheet } from '../../actions/comparison.ts';
import { compareWith } from '../../actions/comparison-actions.ts';
import { copyAsAlternative, deleteSheet, renameSheet, saveSheet, turnTo } from '../../actions/desk-actions.ts';
import { desk, type Sheet, sheets } from '../../state/alternatives.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { TextField } from '../fields/text-field.tsx';
import { ComparisonTable } from './comparison-table.tsx';

/** Copies of the plan to try something else on, and two of them side by side. */
export function AlternativesPanel() {
  return (
    <div class="job alternatives">
      <p class="note">
        Copy the plan to try another place or pipe without losing this one. Each copy has steps of its own to undo and
        is saved as a file of its own.
      </p>
      <ul class="sheet-list">
        {sheets.value.map((sheet) => (
          <SheetRow key={sheet.id} sheet={sheet} />
        ))}
      </ul>
      <p class="buttons">
        <button type="button" onClick={copyAsAlternative}>
          Copy this plan as an alternative
        </button>
      </p>
      <SideBySide />
    </div>
  );
}

function SheetRow({ sheet }: { readonly sheet: Sheet }) {
  const { name } = sheet.history.present;
  const shown = sheet.id === desk.value.shown;
  return (
    <li class="sheet-row" aria-current={shown ? 'true' : undefined}>
      <TextField label={`Name of ${name}`} bare value={name} onValue={(typed) => renameSheet(sheet.id, typed)} />
      <span class="buttons">
        {shown ? (
          <span class="note">on the map</span>
        ) : (
          <Quiet words="Show" about={name} onPick={() => turnTo(sheet.id)} />
        )}
        <Quiet words="Save" about={name} onPick={() => saveSheet(sheet.id)} />
        {sheets.value.length > 1 ? (
          <Quiet words="Delete" about={name} onPick={() => deleteSheet(sheet.id)} danger />
        ) : null}
      </span>
    </li>
  );
}

function Quiet(props: {
  readonly words: string;
  readonly about: string;
  readonly onPick: () => void;
  readonly danger?: boolean;
}) {
  return (
    <button
      type="button"
      class={`quiet${props.danger ? ' danger' : ''}`}
      aria-label={`${props.words} ${props.about}`}
      onClick={props.onPick}
    >
      {props.words}
    </button>
  );
}

function SideBySide() {
  const other = otherSheet.value;
  if (other === null) return null;
  const choices = sheets.value.flatMap(({ id, history }) =>
    id === desk.value.shown ? [] : [{ value: id, words: history.present.name }],
  );
  return (
    <>
      <h2>Side by side</h2>
      {choices.length > 1 ? (
        <ChoiceField
          label="Compare the plan on the map with"
          value={other.id}
          choices={choices}
          onValue={(id) => {
            compareWith(id);
            return [];
          }}
        />
      ) : null}
      <ComparisonTable other={other} />
    </>
  );
}
