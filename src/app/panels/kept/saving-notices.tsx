import { leaveTrouble, lookAtDisk, overwriteDisk, saveAsAnother } from '../../files/saving-actions.ts';
import { alsoOpen, savingTrouble } from '../../files/saving-state.ts';
import { newVersion, pageReplaced, useNewVersion } from '../../offline/new-version.ts';
import { Notice } from '../fields/notice.tsx';

/** What the page has to say about the file on disk: changed since it was read, not written, or open in another tab. */
export function SavingNotices() {
  return (
    <>
      <Trouble />
      <SameFile />
    </>
  );
}

function Trouble() {
  const trouble = savingTrouble.value;
  if (trouble === null) return null;
  if (trouble.kind === 'failed') {
    return (
      <Notice
        kind="not-written"
        buttons={[
          ['Save as another file', saveAsAnother],
          ['Not now', leaveTrouble],
        ]}
      >
        <strong>{trouble.name}</strong> was not written: {trouble.reason}.
      </Notice>
    );
  }
  return (
    <Notice
      kind="changed-on-disk"
      buttons={[
        ['Save as another file', saveAsAnother],
        ['Look at what is on disk', lookAtDisk],
        ['Overwrite it', () => void overwriteDisk()],
        ['Not now', leaveTrouble],
      ]}
    >
      Not saved yet: <strong>{trouble.onDisk.file.name}</strong> was changed on disk after it was opened here.
    </Notice>
  );
}

function SameFile() {
  const [name] = alsoOpen.value.values();
  if (name === undefined) return null;
  return (
    <Notice kind="same-file" buttons={[['OK', () => leaveSameFile()]]}>
      <strong>{name}</strong> is open in another tab as well. Changes made there are not seen here.
    </Notice>
  );
}

function leaveSameFile(): void {
  alsoOpen.value = new Map();
}

/** Says that a new version of the planner waits, and turns to it when asked. */
export function NewVersionNotice() {
  if (pageReplaced.value) {
    return (
      <Notice kind="new-version" buttons={[['Load the page again', () => location.reload()]]}>
        A new version is there: parts of this page were replaced and cannot be loaded any more. Your plan is kept.
      </Notice>
    );
  }
  if (newVersion.value === null) return null;
  return (
    <section class="keeping-notice" role="status" aria-label="New version" data-notice="new-version">
      <p>A new version is ready.</p>
      <p class="buttons">
        <button type="button" onClick={useNewVersion}>
          Reload
        </button>
      </p>
    </section>
  );
}
