import { useEffect, useRef } from 'preact/hooks';
import type { MeasureFirst } from '../../../evaluation/result/evaluation.ts';
import type { PlanPoint } from '../../../plan/model/plan.ts';
import { measureWords } from '../../../report/words/measure-words.ts';
import { closeSite, showSiteQuestion, takeBeats } from '../../actions/site-actions.ts';
import { readings } from '../../state/diagnosis-store.ts';
import { type SiteQuestion, siteAt, siteOpen } from '../../state/site-store.ts';
import { evaluation, plan } from '../../state/store.ts';
import { BeatCounter } from '../trouble/beat-counter.tsx';
import { BucketScreen } from './bucket-screen.tsx';
import { LevelScreen } from './level-screen.tsx';
import { PlaceScreen } from './place-screen.tsx';
import './site.css';

/** Entry on site: one thing to measure a screen, in the order of what it is worth. */
export function SiteDialog() {
  return siteOpen.value ? <Dialog /> : null;
}

function Dialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const screens = screensOf();
  const at = Math.min(siteAt.value, screens.length - 1);
  const screen = screens[at];
  return (
    <dialog ref={dialog} class="site" aria-labelledby="site-title" onClose={closeSite}>
      <div class="site-head">
        <p class="note">
          On site: {at + 1} of {screens.length}
        </p>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
      <h2 id="site-title">{screen?.title}</h2>
      {screen?.aim == null ? null : <p>{screen.aim}</p>}
      {screen?.expected == null ? null : <p class="note">The plan thinks: {screen.expected}</p>}
      {screen === undefined ? null : <Body key={screen.key} screen={screen} />}
      <p class="site-turn">
        <button type="button" class="site-big" disabled={at === 0} onClick={() => showSiteQuestion(at - 1)}>
          Back
        </button>
        <button
          type="button"
          class="site-big"
          disabled={at === screens.length - 1}
          onClick={() => showSiteQuestion(at + 1)}
        >
          Next
        </button>
      </p>
    </dialog>
  );
}

interface Screen {
  readonly key: string;
  readonly asks: SiteQuestion;
  readonly title: string;
  readonly aim: string | null;
  readonly expected: string | null;
  readonly point: PlanPoint | null;
}

function Body({ screen }: { readonly screen: Screen }) {
  switch (screen.asks) {
    case 'level':
      return <LevelScreen />;
    case 'bucket':
      return <BucketScreen />;
    case 'beats':
      return <BeatsScreen />;
    case 'place':
      return screen.point === null ? null : <PlaceScreen point={screen.point} />;
    case 'other':
      return <p class="note">Note it on paper, and enter it under Inputs or at its part of the plan.</p>;
  }
}

function BeatsScreen() {
  const { beatsPerMinute } = readings.value;
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  const today = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  return (
    <div class="site-screen">
      <BeatCounter />
      <button type="button" class="site-big" disabled={beatsPerMinute === null} onClick={() => takeBeats(today)}>
        Enter in the records of the pump
      </button>
    </div>
  );
}

/** Which screen answers what is to be measured. */
const ASKS: Readonly<Record<string, SiteQuestion>> = {
  fall: 'level',
  'standpipe-level': 'level',
  lift: 'level',
  'summit-level': 'level',
  'trough-level': 'level',
  ground: 'level',
  'source-yield': 'bucket',
  beats: 'beats',
};

/** What to measure in the order of its worth, then what can be measured besides, then where each point is. */
function screensOf(): readonly Screen[] {
  const shown = plan.value;
  const worth = (evaluation.value?.measureFirst ?? []).map((item, k) => screenOf(item, k));
  const besides = BESIDES.filter(({ asks }) => !worth.some((screen) => screen.asks === asks));
  const places = shown.points.map(
    (point): Screen => ({
      ...NOTHING,
      key: `place ${point.id}`,
      asks: 'place',
      title: `Where ${point.name} is`,
      point,
    }),
  );
  return [...worth, ...besides, ...places];
}

const NOTHING = { aim: null, expected: null, point: null } as const;

const BESIDES: readonly Screen[] = [
  { ...NOTHING, key: 'bucket', asks: 'bucket', title: 'Time fillings of a container at the source' },
  { ...NOTHING, key: 'level', asks: 'level', title: 'Level between points' },
  { ...NOTHING, key: 'beats', asks: 'beats', title: 'Count the beats of the pump' },
];

function screenOf(item: MeasureFirst, k: number): Screen {
  const words = measureWords(item, plan.value, plan.value.units);
  return { ...words, key: `${k} ${item.quantity} ${item.about}`, asks: ASKS[item.quantity] ?? 'other', point: null };
}
