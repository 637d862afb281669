import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { PROGRAM_ABOUT } from '../../../report/words/safe-file-name.ts';
import { openHelp } from '../../actions/view-actions.ts';
import { helpOpen } from '../../state/store.ts';

const KEYS: readonly (readonly [string, string])[] = [
  ['Ctrl Z', 'undo'],
  ['Ctrl Shift Z or Ctrl Y', 'redo'],
  ['Ctrl S', 'save the plan'],
  ['Ctrl Alt C', 'copy the plan as an alternative'],
  ['Esc', 'stop placing or drawing; select nothing'],
  ['Delete', 'delete what is selected (undo brings it back)'],
  ['B Shift B', 'on the map, with a line selected: its next bend, the one before'],
  ['Alt and an arrow', 'on the map: move the selected point or bend by half a cell'],
  ['← →', 'in the profile: move the cursor; with Shift ten times as far'],
  ['Home End', 'in the profile: to its start or end'],
  ['?', 'this page'],
];

/** What to do in which order, the keys, and what the verdicts mean. */
function HelpSteps() {
  return (
    <>
      <ol>
        <li>Open an elevation file from disk or by its address, and a picture if you have one.</li>
        <li>Place the source, standpipe, pump and one or more tanks; draw the lines between them.</li>
        <li>Say what the source gives and who drinks.</li>
        <li>Read whether it runs, what arrives, and what to measure before anything is dug.</li>
      </ol>
      <h3>Keys</h3>
      <dl class="keys">
        {KEYS.map(([key, does]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <p>
        Every point and every bend is also a row of numbers under “Selected”, so nothing needs a pointer. Quantities may
        be typed in any unit: 2 gal/min, 8 ft 3 in, 7,5 l/min.
      </p>
      <h3>What the words mean</h3>
      <p>
        <strong>holds</strong>: sure enough, with all doubts counted. <strong>measure</strong>: the elevation file
        cannot decide it; a reading on site can. <strong>fails</strong>: sure enough that it does not work so.
      </p>
    </>
  );
}

type Page = 'steps' | 'words' | 'about';

const PAGES: Readonly<Record<Page, string>> = {
  steps: 'How to use the planner',
  words: 'Words of the trade',
  about: 'About the planner',
};

const BUTTONS: Readonly<Record<Page, string>> = { steps: 'How to', words: 'Words', about: 'About' };

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
          {(['steps', 'words', 'about'] as const).map((each) => (
            <button key={each} type="button" aria-pressed={page === each} onClick={() => setPage(each)}>
              {BUTTONS[each]}
            </button>
          ))}
        </fieldset>
      </div>
      {page === 'steps' ? <HelpSteps /> : page === 'words' ? <Words /> : <About />}
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

/** What the program is and whose work is in it. */
function About() {
  const [licences, setLicences] = useState<string | null>(null);
  useEffect(() => {
    licenceText().then(setLicences, () =>
      setLicences('They could not be loaded. They lie beside the page, in licences.txt.'),
    );
  }, []);
  return (
    <>
      <p>
        {PROGRAM_ABOUT.name} {PROGRAM_ABOUT.version}, under the MIT licence, without any warranty. It plans; it does not
        replace a survey, a permit, or the judgement of somebody licensed where that is asked for.
      </p>
      <h3>Packages that are shipped with it</h3>
      <pre class="licences" data-testid="licences">
        {licences ?? 'The licences are being loaded…'}
      </pre>
    </>
  );
}

async function licenceText(): Promise<string> {
  const reply = await fetch(new URL('./licences.txt', document.baseURI));
  if (!reply.ok) throw new Error(`licences.txt: found answer ${reply.status}, expected 200`);
  return reply.text();
}
