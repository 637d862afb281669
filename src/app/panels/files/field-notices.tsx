import { MOST_LINK } from '../../../plan/exchange/plan-link.ts';
import { hideFieldNote } from '../../files/field-actions.ts';
import { hideLinkNote } from '../../files/link-actions.ts';
import { bundling, fieldNote, type LinkNote, linkNote } from '../../state/field-store.ts';
import { Notice } from '../fields/notice.tsx';

/** What is said of a link with a plan in it. */
export function LinkNotices() {
  const note = linkNote.value;
  if (note === null) return null;
  return (
    <Notice kind={`link-${note.kind}`} buttons={[['All right', hideLinkNote]]}>
      <LinkWords note={note} />
    </Notice>
  );
}

function LinkWords({ note }: { readonly note: LinkNote }) {
  switch (note.kind) {
    case 'copied':
      return (
        <>The link is copied: {note.letters} letters. It holds the plan and no ground, and is sent nowhere by itself.</>
      );
    case 'by-hand':
      return (
        <label>
          The browser does not let it be copied. The link: <input readOnly value={note.link} />
        </label>
      );
    case 'too-long':
      return (
        <>
          The plan is too large for a link: {note.letters} letters, and {MOST_LINK} pass everywhere. Take the file for
          the phone.
        </>
      );
    case 'opened':
      return (
        <>
          This plan came in a link, without ground. Open the elevation file
          {note.files.length === 0 ? '' : ` ${note.files.join(', ')}`} to see what it comes to.
        </>
      );
  }
}

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
