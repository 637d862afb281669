import '../fields/notice.css';
import { goOnAsCopy } from '../../autosave/keep-desk.ts';
import { hideCompared, hideKeptRefusal, hidePutAside } from '../../autosave/keeping-actions.ts';
import { compared, filesMissing, found, keeping, keptRefusal, putAside } from '../../autosave/keeping-state.ts';
import { leaveFound, openKeptList } from '../../autosave/kept-list-actions.ts';
import { type KeptWork, workName } from '../../autosave/kept-work.ts';
import { Notice } from '../fields/notice.tsx';
import { whenWords } from './kept-words.ts';
import { copyInstead, openInstead } from './open-instead.ts';

/** What the page has to say about work that is kept: found, put aside, open elsewhere, or not kept at all. */
export function KeepingNotices() {
  return (
    <>
      <TakenOver />
      <NotKept />
      <LostAndFound />
      <FilesMissing />
      <PutAside />
      <FoundWork />
      <OpenElsewhere />
    </>
  );
}

const SEE_ALL = ['Plans kept in this browser…', () => void openKeptList()] as const;

function FoundWork() {
  const [work, ...more] = found.value.left;
  if (work === undefined) return null;
  const others = more.length === 0 ? '' : ` And ${more.length} more.`;
  return (
    <Notice
      kind="found"
      buttons={[
        ['Open it', () => openInstead(work)],
        ...(more.length === 0 ? [] : [SEE_ALL]),
        ['Not now', () => leaveAll([work, ...more])],
      ]}
    >
      Found work from {whenWords(work.at, Date.now())} that is not in a file: <strong>{workName(work)}</strong>.{others}
    </Notice>
  );
}

function leaveAll(works: readonly KeptWork[]): void {
  for (const work of works) leaveFound(work);
}

function OpenElsewhere() {
  const [work] = found.value.elsewhere;
  if (work === undefined) return null;
  return (
    <Notice
      kind="elsewhere"
      buttons={[
        ['Take it over', () => openInstead(work)],
        ['Open a copy', () => copyInstead(work)],
        ['Not now', () => leaveFound(work)],
      ]}
    >
      <strong>{workName(work)}</strong> is open in another tab, with changes that are not in a file.
    </Notice>
  );
}

function TakenOver() {
  if (keeping.value.kind !== 'elsewhere') return null;
  return (
    <Notice kind="taken-over" buttons={[['Go on here with a copy', goOnAsCopy]]}>
      This work goes on in another tab. What is changed here is not kept.
    </Notice>
  );
}

function PutAside() {
  const work = putAside.value;
  if (work === null) return null;
  return (
    <Notice
      kind="put-aside"
      buttons={[
        ['Open it again', () => openInstead(work)],
        ['OK', hidePutAside],
      ]}
    >
      <strong>{workName(work)}</strong> is not in a file. It stays among the plans kept in this browser and is offered
      again when the page is next opened.
    </Notice>
  );
}

function FilesMissing() {
  // What lies at an address is told on the map, with a button that asks there.
  const missing = filesMissing.value.filter(({ address }) => address === undefined);
  if (missing.length === 0) return null;
  return (
    <Notice kind="files-missing" buttons={[]}>
      Heights of this plan come from {missing.map(({ name }) => name).join(', ')}. Open that file again to reckon with
      it.
    </Notice>
  );
}

/** What the two stores of the browser had to give each other, and what neither can give any more. */
function LostAndFound() {
  const told = compared.value;
  if (told === null) return null;
  const { restored, lost, later } = told;
  return (
    <>
      {restored.length + lost === 0 ? null : (
        <Notice kind="lost-and-found" buttons={[SEE_ALL, ['OK', hideCompared]]}>
          {restored.length === 0 ? null : (
            <>
              The browser had lost {restored.length === 1 ? 'a kept plan' : `${restored.length} kept plans`}. Brought
              back from the second copy: <strong>{restored.map(workName).join(', ')}</strong>.{' '}
            </>
          )}
          {lost === 0 ? null : `${lost === 1 ? 'A kept plan' : `${lost} kept plans`} cannot be read any more.`}
        </Notice>
      )}
      {later === 0 ? null : (
        <Notice
          kind="later-version"
          buttons={[
            ['Load the page again', () => location.reload()],
            ['OK', hideCompared],
          ]}
        >
          {later === 1 ? 'A plan' : `${later} plans`} in this browser {later === 1 ? 'was' : 'were'} kept by a newer
          version of the planner. This page leaves {later === 1 ? 'it' : 'them'} as {later === 1 ? 'it is' : 'they are'}
          .
        </Notice>
      )}
    </>
  );
}

function NotKept() {
  const state = keeping.value;
  if (keptRefusal.value !== null) {
    return (
      <Notice kind="refused" buttons={[['OK', hideKeptRefusal]]}>
        The kept work was not opened: {keptRefusal.value}
      </Notice>
    );
  }
  if (state.kind !== 'failed') return null;
  return (
    <p class="keeping-notice note" role="status" data-notice="failed">
      Changes are not being kept in this browser: {state.reason}. Save the plan as a file. The planner goes on trying.
    </p>
  );
}
