import { hideFieldNote } from '../../actions/field-actions.ts';
import { bundling, fieldNote } from '../../state/field-store.ts';
import { Notice } from '../fields/notice.tsx';

/** What was put into a file for out of doors, or came out of one, and what is not in it. */
export function FieldNotices() {
  if (bundling.value) {
    return (
      <Notice kind="bundling" buttons={[]}>
        Putting the plan and its ground into one file…
      </Notice>
    );
  }
  const note = fieldNote.value;
  if (note === null) return null;
  const missing = note.missing.length === 0 ? 'Nothing is missing in it.' : `Not in it: ${note.missing.join('; ')}.`;
  return (
    <Notice kind={note.made ? 'bundle-made' : 'bundle-opened'} buttons={[['All right', hideFieldNote]]}>
      <strong>{note.file}</strong> {note.made ? 'was handed to the browser' : 'is open'}. {missing}
    </Notice>
  );
}
