import { useEffect, useRef } from 'preact/hooks';
import { keptListOpen, keptWorks, thrownWorks } from '../../autosave/keeping-state.ts';
import { closeKeptList } from '../../autosave/kept-list-actions.ts';
import { KeptRow } from './kept-row.tsx';
import './kept-dialog.css';

/** Every plan that is kept in this browser, to be opened, saved as a file or deleted. */
export function KeptDialog() {
  return keptListOpen.value ? <Dialog /> : null;
}

function Dialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="kept" aria-labelledby="kept-title" onClose={closeKeptList}>
      <h2 id="kept-title">Plans kept in this browser</h2>
      <p class="note">
        Your work is kept here as you go, on this device only. Clearing the browser’s data clears it as well: save what
        matters as a file.
      </p>
      <Works />
      <p class="buttons">
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
    </dialog>
  );
}

function Works() {
  const kept = keptWorks.value;
  if (kept === null) return <p role="alert">This browser does not let the planner look at what it keeps.</p>;
  // A work that was thrown away stays where it was in the list, so that it can be put back at once.
  const works = [...kept, ...thrownWorks.value].sort((a, b) => b.at - a.at);
  if (works.length === 0) return <p>Nothing is kept yet. It begins with your first change.</p>;
  return (
    <ul class="kept-works">
      {works.map((work) => (
        <KeptRow key={work.id} work={work} />
      ))}
    </ul>
  );
}
