import { useLayoutEffect, useRef } from 'preact/hooks';
import { keptTerrain } from '../../autosave/keeping-state.ts';
import {
  deleteForGood,
  deleteWork,
  placeOf,
  putWorkBack,
  saveKeptPlan,
  type WorkPlace,
} from '../../autosave/kept-list-actions.ts';
import { type KeptPlan, type KeptWork, neverHanded, notInFile, workName } from '../../autosave/kept-work.ts';
import { terrainWords, whenWords } from './kept-words.ts';
import { copyInstead, openInstead } from './open-instead.ts';

/** A kept work: what it is, where it is open, and what can be done with it. */
export function KeptRow({ work }: { readonly work: KeptWork }) {
  const row = useRef<HTMLLIElement>(null);
  const place = placeOf(work);
  const before = useRef(place);
  useLayoutEffect(() => {
    // The button that was pressed is gone; the focus goes to what takes its place.
    if (before.current !== place) row.current?.querySelector('button')?.focus();
    before.current = place;
  }, [place]);
  return (
    <li ref={row} class={place} data-work={workName(work)}>
      <div>
        <strong>{workName(work)}</strong>
        <span class="kept-place">{PLACES[place]}</span>
        <p class="note">{factsOf(work)}</p>
      </div>
      <p class="buttons">
        <Doings work={work} place={place} />
      </p>
    </li>
  );
}

const PLACES: Readonly<Record<WorkPlace, string>> = {
  here: 'open here',
  elsewhere: 'open in another tab',
  closed: '',
  thrown: 'deleted',
};

function factsOf(work: KeptWork): string {
  const terrain = keptTerrain.value.get(work.id);
  const others = work.plans.length - 1;
  return [
    ...(placeOf(work) === 'thrown' ? ['can be put back for a day'] : []),
    `changed ${whenWords(work.at, Date.now())}`,
    ...(work.demo ? ['in the invented demo valley'] : []),
    ...(others === 0 ? [] : [others === 1 ? '1 alternative' : `${others} alternatives`]),
    notInFile(work) ? (neverHanded(work) ? 'not in a file' : 'handed to the browser as a file') : 'in a file',
    ...(terrain === undefined ? [] : [terrainWords(terrain)]),
  ].join(' · ');
}

function Doings({ work, place }: { readonly work: KeptWork; readonly place: WorkPlace }) {
  if (place === 'thrown') {
    return (
      <>
        <Do words="Put back" work={work} act={() => void putWorkBack(work)} />
        <Do words="Delete for good" work={work} act={() => void deleteForGood(work)} danger />
      </>
    );
  }
  return (
    <>
      {place === 'closed' ? <Do words="Open" work={work} act={() => openInstead(work)} /> : null}
      {place === 'elsewhere' ? <Do words="Take it over" work={work} act={() => openInstead(work)} /> : null}
      {place === 'elsewhere' ? <Do words="Open a copy" work={work} act={() => copyInstead(work)} /> : null}
      {work.plans.map((plan) => (
        <SaveAsFile key={plan.id} work={work} plan={plan} />
      ))}
      {place === 'closed' ? <Do words="Delete" work={work} act={() => void deleteWork(work)} danger /> : null}
    </>
  );
}

/** Of a work with alternatives each plan is a file of its own. */
function SaveAsFile({ work, plan }: { readonly work: KeptWork; readonly plan: KeptPlan }) {
  const words = work.plans.length === 1 ? 'Save as file' : `Save “${plan.name}” as file`;
  return <Do words={words} work={work} act={() => void saveKeptPlan(work, plan)} />;
}

interface DoProps {
  readonly words: string;
  readonly work: KeptWork;
  readonly act: () => void;
  readonly danger?: boolean;
}

function Do({ words, work, act, danger = false }: DoProps) {
  return (
    <button type="button" class={danger ? 'danger' : ''} aria-label={`${words}: ${workName(work)}`} onClick={act}>
      {words}
    </button>
  );
}
