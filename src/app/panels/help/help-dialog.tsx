import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { openHelp } from '../../actions/view-actions.ts';
import { helpOpen } from '../../state/store.ts';
import { HelpSteps } from './help-steps.tsx';

type Page = 'steps' | 'words';

const PAGES: Readonly<Record<Page, string>> = { steps: 'How to use the planner', words: 'Words of the trade' };

/** How the planner is used with its keys, and a glossary. */
export function HelpDialog() {
  return helpOpen.value ? <Help /> : null;
}

function Help() {
  const dialog = useRef<HTMLDialogElement>(null);
  const [page, setPage] = useState<Page>('steps');
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="help" aria-labelledby="help-title" onClose={() => openHelp(false)}>
      <div class="help-head">
        <h2 id="help-title">{PAGES[page]}</h2>
        <fieldset class="group" aria-label="Page of the help">
          {(['steps', 'words'] as const).map((each) => (
            <button key={each} type="button" aria-pressed={page === each} onClick={() => setPage(each)}>
              {each === 'steps' ? 'How to' : 'Words'}
            </button>
          ))}
        </fieldset>
      </div>
      {page === 'steps' ? <HelpSteps /> : <Words />}
      <p class="buttons">
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
    </dialog>
  );
}

/** The glossary is read by few and comes when it is asked for. */
function Words() {
  const [words, setWords] = useState<{ readonly view: ComponentType } | { readonly failed: string } | null>(null);
  useEffect(() => {
    import('./glossary-words.tsx').then(
      ({ GlossaryWords }) => setWords({ view: GlossaryWords }),
      (error: unknown) => setWords({ failed: error instanceof Error ? error.message : String(error) }),
    );
  }, []);
  if (words === null) return <p>The words are being loaded…</p>;
  if ('failed' in words)
    return <p role="alert">The words could not be loaded ({words.failed}). Load the page again.</p>;
  return <words.view />;
}
