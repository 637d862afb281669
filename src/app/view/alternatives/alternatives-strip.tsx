import './alternatives.css';
import { showJob } from '../../actions/jobs-actions.ts';
import { showPanel } from '../../actions/view-actions.ts';
import { desk, isUnsaved, type Sheet, sheets } from '../../alternatives/desk.ts';
import { turnTo } from '../../alternatives/desk-actions.ts';

/** The plans that are worked on side by side, once there is more than one. */
export function AlternativesStrip() {
  const all = sheets.value;
  if (all.length < 2) return null;
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
