import './alternatives.css';
import { copyAsAlternative, deleteSheet, letSheetGo, putSheetBack, turnTo } from '../../actions/desk-actions.ts';
import { showJob } from '../../actions/jobs-actions.ts';
import { showPanel } from '../../actions/view-actions.ts';
import { deletedSheet, desk, isUnsaved, type Sheet, sheets } from '../../state/alternatives.ts';
import { history } from '../../state/store.ts';

/** The plans that are worked on side by side, once there is more than one, and the one that was deleted last. */
export function AlternativesStrip() {
  return (
    <>
      {sheets.value.length < 2 ? null : <Strip />}
      <PutBack />
    </>
  );
}

function Strip() {
  const all = sheets.value;
  const { name } = history.value.present;
  return (
    <nav class="alternatives-strip" aria-label="Alternatives">
      {all.map((sheet) => (
        <TurnTo key={sheet.id} sheet={sheet} />
      ))}
      <button
        type="button"
        class="quiet"
        onClick={() => {
          showPanel('jobs');
          showJob('alternatives');
        }}
      >
        Compare
      </button>
      <button type="button" class="quiet" aria-label={`Copy ${name} as an alternative`} onClick={copyAsAlternative}>
        Copy
      </button>
      <button
        type="button"
        class="quiet danger"
        aria-label={`Delete the alternative ${name}`}
        onClick={() => deleteSheet(desk.value.shown)}
      >
        Delete
      </button>
    </nav>
  );
}

function TurnTo({ sheet }: { readonly sheet: Sheet }) {
  const { name } = sheet.history.present;
  const shown = sheet.id === desk.value.shown;
  return (
    <button type="button" class="sheet-tab" aria-pressed={shown} title={name} onClick={() => turnTo(sheet.id)}>
      {name}
      {isUnsaved(sheet) ? (
        <span class="dot">
          <span class="unseen"> (unsaved changes)</span>
        </span>
      ) : null}
    </button>
  );
}

function PutBack() {
  const deleted = deletedSheet.value;
  if (deleted === null) return null;
  return (
    <p class="note sheet-deleted" role="status">
      {deleted.sheet.history.present.name} is deleted.{' '}
      <button type="button" class="quiet" onClick={putSheetBack}>
        Put it back
      </button>{' '}
      <button type="button" class="quiet" onClick={letSheetGo}>
        Let it go
      </button>
    </p>
  );
}
