import { newVersion, useNewVersion } from '../../offline/new-version.ts';

/** Says that a new version of the planner waits, and turns to it when asked. */
export function NewVersionNotice() {
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
