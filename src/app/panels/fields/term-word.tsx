import './term-word.css';
import { useId, useRef, useState } from 'preact/hooks';
import type { Term } from '../../../report/words/terms.ts';
import { plan } from '../../state/store.ts';

/** The word of a figure; where the glossary explains it, under a dotted line that opens by hover, touch and key. */
export function TermWord({ of }: { readonly of: Term }) {
  return of.glossary === undefined ? <>{of.plain}</> : <Explained word={of.plain} term={of.glossary} />;
}

/** Room between a word and what explains it, px. */
const GAP = 6;
const WIDTH = 280;

/** A word with what the glossary says of a term. */
export function Explained({ word, term }: { readonly word: string; readonly term: string }) {
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  const note = useRef<HTMLSpanElement>(null);
  /** Opened by a press, it stays until the next; by hover, while the pointer is on the word. */
  const pinned = useRef(false);
  const [open, setOpen] = useState(false);
  const [meaning, setMeaning] = useState('');
  const show = () => {
    if (meaning === '') void meaningOf(term).then(setMeaning);
    if (button.current === null || note.current === null || open) return;
    note.current.showPopover();
    place(note.current, button.current.getBoundingClientRect());
  };
  const hide = () => note.current?.matches(':popover-open') && note.current.hidePopover();
  return (
    <>
      <button
        ref={button}
        type="button"
        class="term"
        aria-expanded={open}
        aria-controls={id}
        onMouseEnter={show}
        onMouseLeave={() => pinned.current || hide()}
        onClick={() => {
          pinned.current = !pinned.current;
          if (pinned.current) show();
          else hide();
        }}
      >
        {word}
      </button>
      <span
        ref={note}
        id={id}
        class="term-meaning"
        popover="auto"
        role="note"
        onToggle={(event) => {
          const shown = event.newState === 'open';
          setOpen(shown);
          if (!shown) pinned.current = false;
        }}
      >
        <strong>{term}</strong> {meaning}
      </span>
    </>
  );
}

/** The glossary comes when the first word is asked for. */
async function meaningOf(term: string): Promise<string> {
  const { GLOSSARY, meaningFor } = await import('../../../report/glossary/glossary.ts');
  const found = GLOSSARY.flatMap(({ entries }) => entries).find((entry) => entry.term === term);
  return found === undefined ? '' : meaningFor(found, plan.value.units);
}

/** Beneath the word where there is room, else above, and never out of the page. */
function place(note: HTMLElement, word: DOMRect): void {
  const left = Math.max(GAP, Math.min(word.left, window.innerWidth - WIDTH - GAP));
  note.style.left = `${left}px`;
  const below = window.innerHeight - word.bottom > window.innerHeight / 3;
  note.style.top = below ? `${word.bottom + GAP}px` : 'auto';
  note.style.bottom = below ? 'auto' : `${window.innerHeight - word.top + GAP}px`;
}
