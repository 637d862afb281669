import { useEffect, useRef } from 'preact/hooks';
import { PRESSURE_CAUTION } from '../../../diagnosis/words/note-words.ts';
import { clearReadings, closeTrouble, showTroublePart } from '../../actions/diagnosis-actions.ts';
import { type TroublePart, troubleOpen, troublePart } from '../../state/diagnosis-store.ts';
import { CausesPart, LikeliestStrip } from './causes-part.tsx';
import { RecordsPart } from './records-part.tsx';
import { SeenPart } from './seen-part.tsx';
import './trouble.css';

const PARTS: Readonly<Record<TroublePart, string>> = { seen: 'What is wrong', records: 'Records' };

/** A pump that runs no more or brings too little: what is seen, what is likely the matter, and its records. */
export function TroubleDialog() {
  return troubleOpen.value ? <Dialog /> : null;
}

function Dialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="trouble" aria-labelledby="trouble-title" onClose={closeTrouble}>
      <div class="trouble-head">
        <h2 id="trouble-title">Something is wrong</h2>
        <fieldset class="group" aria-label="Part of the page">
          {(Object.keys(PARTS) as TroublePart[]).map((part) => (
            <button
              key={part}
              type="button"
              aria-pressed={troublePart.value === part}
              onClick={() => showTroublePart(part)}
            >
              {PARTS[part]}
            </button>
          ))}
        </fieldset>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
      <p class="caution">{PRESSURE_CAUTION}</p>
      {troublePart.value === 'records' ? <RecordsPart /> : <Trouble />}
    </dialog>
  );
}

function Trouble() {
  return (
    <>
      <div class="trouble-parts">
        <div>
          <SeenPart />
          <p class="buttons">
            <button type="button" onClick={clearReadings}>
              Begin anew
            </button>
          </p>
        </div>
        <CausesPart />
      </div>
      <LikeliestStrip />
    </>
  );
}
