import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { openDemo, startTour } from '../../actions/demo-actions.ts';
import { openHelp } from '../../actions/view-actions.ts';
import { helpOpen } from '../../state/store.ts';
import { askThen } from '../fields/ask-then.ts';

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
      <p class="buttons">
        <button type="button" onClick={() => void withDemo(startTour)}>
          Take the guided look: six stops in the demo
        </button>
        <button type="button" onClick={() => void withDemo(openDemo)}>
          Open the demo valley
        </button>
      </p>
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
      <h3>Entering what you measured</h3>
      <p>
        Choose the point on the map or in the water path. Under “Selected” open “Measured on site”: say from which other
        point you measured, how much higher or lower the ground is there, and how sure you are (give or take). The list
        of what to measure in the answer leads to the same place. A bucket test goes under “Inputs”, at the source: what
        the bucket holds and how many seconds each filling took. What the pump takes and delivers goes under “Tables”,
        “Pump size”. Every reading can be changed or taken out again, and counts by how sure it is.
      </p>
      <h3>What the year and the alternatives are for</h3>
      <p>
        The year (under “Tables”) says how much the source gives and how much the animals drink month by month. It shows
        the months in which the tank runs low, and how large it must be. Without it the numbers are those of the dry
        season.
      </p>
      <p>
        An alternative is a copy of the plan beside the plan: another tank, another pipe, another pump. Change it,
        switch between the two, and lay them side by side to see what differs and whether the difference is real or
        within what is not known. Nothing is lost by trying.
      </p>
      <h3>What the words mean</h3>
      <p>
        <strong>holds</strong>: sure enough, with all doubts counted. <strong>measure</strong>: the elevation file
        cannot decide it; a reading on site can. <strong>fails</strong>: sure enough that it does not work so.
      </p>
    </>
  );
}

type Page = 'steps' | 'elevation' | 'words' | 'about';

const PAGES: Readonly<Record<Page, string>> = {
  steps: 'How to use the planner',
  elevation: 'Where elevation files come from',
  words: 'Words of the trade',
  about: 'About the planner',
};
const SHORT: Readonly<Record<Page, string>> = {
  steps: 'How to',
  elevation: 'Elevation files',
  words: 'Words',
  about: 'About',
};

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
          {(['steps', 'elevation', 'words', 'about'] as const).map((each) => (
            <button key={each} type="button" aria-pressed={page === each} onClick={() => setPage(each)}>
              {SHORT[each]}
            </button>
          ))}
        </fieldset>
      </div>
      {page === 'steps' ? <HelpSteps /> : <Later key={page} load={LATER[page]} />}
      <p class="buttons">
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
    </dialog>
  );
}

/** Pages that are read by few come when they are asked for; they are kept for use without a network like all else. */
const LATER: Readonly<Record<Exclude<Page, 'steps'>, () => Promise<ComponentType>>> = {
  elevation: async () => (await import('./elevation-page.tsx')).ElevationPage,
  words: async () => (await import('./glossary-words.tsx')).GlossaryWords,
  about: async () => (await import('./about-page.tsx')).AboutPage,
};

function Later({ load }: { readonly load: () => Promise<ComponentType> }) {
  const [page, setPage] = useState<{ readonly view: ComponentType } | { readonly failed: string } | null>(null);
  useEffect(() => {
    load().then(
      (view) => setPage({ view }),
      (error: unknown) => setPage({ failed: error instanceof Error ? error.message : String(error) }),
    );
  }, [load]);
  if (page === null) return <p>The page is being loaded…</p>;
  if ('failed' in page) return <p role="alert">It could not be loaded ({page.failed}). Load the page again.</p>;
  return <page.view />;
}

/** Puts the demo in the place of the plan, once the user has agreed to let changes go, and shows it. */
async function withDemo(go: () => Promise<void>): Promise<void> {
  await askThen(() => {
    openHelp(false);
    void go();
  });
}
