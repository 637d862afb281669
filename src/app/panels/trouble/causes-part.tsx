import { useState } from 'preact/hooks';
import type { DiagnosedCause, Diagnosis } from '../../../diagnosis/diagnose.ts';
import { CAUSES, type CauseCode } from '../../../diagnosis/model/causes.ts';
import { CHANNELS, type Channel } from '../../../diagnosis/model/readings.ts';
import { planRemedy } from '../../../diagnosis/plan-remedy.ts';
import type { NextTest } from '../../../diagnosis/ranking/next-tests.ts';
import { priorOf } from '../../../diagnosis/ranking/ranking.ts';
import { CAUSE_NAMES, chanceFigure, chanceWords, lowered } from '../../../diagnosis/words/cause-names.ts';
import { CHANNEL_WORDS, channelValue, PLAN_REMEDY_WORDS } from '../../../diagnosis/words/channel-words.ts';
import { MODEL_CAUTION, noteWords } from '../../../diagnosis/words/note-words.ts';
import { remedyWords } from '../../../diagnosis/words/remedy-words.ts';
import { MISSING, TEST_WORDS } from '../../../diagnosis/words/test-words.ts';
import { type ReadingBar, readingBars } from '../../../report/figure/reading-bars.ts';
import type { UnitSystem } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { takeRemedy, weighCause } from '../../actions/diagnosis-actions.ts';
import { diagnosisFound, diagnosisState, readings } from '../../state/diagnosis-store.ts';
import { evaluation, groundBusy, plan } from '../../state/store.ts';
import { Figure } from '../fields/estimate-figure.tsx';
import { ReadField } from '../fields/read-field.tsx';

/** Causes that are shown at once. */
const SHOWN = 3;
/** A cause less likely than this is shown on request only. */
const LEAST_SHOWN = 0.02;

/** The causes in order with what to do about each, and what to read or do next. */
export function CausesPart() {
  const state = diagnosisState.value;
  const found = diagnosisFound.value;
  return (
    <section class="causes" aria-labelledby="causes-title" id="causes" aria-busy={state.kind === 'busy'}>
      <h3 id="causes-title">What it likely is</h3>
      {state.kind === 'no-ground' ? (
        <p role="alert">
          The causes are worked out from the plan on its ground: open an elevation file above the map, and draw source,
          pump, drive pipe and delivery line.
        </p>
      ) : null}
      {state.kind === 'failed' ? <p role="alert">Not worked out: {state.reason}</p> : null}
      {state.kind === 'busy' && found === null ? <p role="status">Working out the causes…</p> : null}
      {found?.ok === false ? (
        <p role="alert">
          Found {MISSING[found.because].found}, expected {MISSING[found.because].expected}.
        </p>
      ) : null}
      {found?.ok === true ? (
        <>
          <Causes diagnosis={found.diagnosis} />
          <Next next={found.diagnosis.next} />
          {found.parts === 'usual' ? (
            <p class="note">
              The plan knows the pump by its sheet only, so a usual ram of its bore stands for it. Describe it by its
              parts, and keep a record, for a surer answer.
            </p>
          ) : null}
          <Weights />
          <p class="note">{MODEL_CAUTION}</p>
        </>
      ) : null}
    </section>
  );
}

function Causes({ diagnosis }: { readonly diagnosis: Diagnosis }) {
  const [all, setAll] = useState(false);
  const { causes, notes } = diagnosis;
  const first = all ? causes : causes.slice(0, SHOWN).filter(({ chance }, i) => i === 0 || chance >= LEAST_SHOWN);
  const other = causes.find(({ code }) => code === 'something-else');
  return (
    <>
      {notes.map((note) => (
        <p key={note.code} class="honest" data-note={note.code}>
          {noteWords(note)}
        </p>
      ))}
      <ol class="cause-list">
        {first.map((cause) => (
          <Cause key={cause.code} cause={cause} />
        ))}
      </ol>
      {other === undefined || first.includes(other) ? null : (
        <p data-cause="something-else">Something else: {chanceFigure(other.chance)}</p>
      )}
      <button type="button" class="quiet" onClick={() => setAll(!all)}>
        {all ? 'The first three only' : 'Every cause'}
      </button>
    </>
  );
}

function Cause({ cause }: { readonly cause: DiagnosedCause }) {
  const { units } = plan.value;
  const bars = barsOf(cause, units);
  return (
    <li data-cause={cause.code}>
      <h4>
        {CAUSE_NAMES[cause.code]}: <span class="chance">{chanceWords(cause.chance)}</span>{' '}
        <small>({chanceFigure(cause.chance)})</small>
      </h4>
      <p>{remedyWords(cause.remedy, units)}</p>
      {bars.length === 0 ? null : (
        <Figure
          node={readingBars(bars, {
            width: 320,
            title: `Read against what this would make of it: ${bars
              .map(({ label, readWords, expectedWords }) => `${label} ${readWords}, expected ${expectedWords}`)
              .join('; ')}`,
          })}
        />
      )}
      <DoIt code={cause.code} />
    </li>
  );
}

/** A pair of bars for each reading that the cause says something about. */
function barsOf({ expected }: DiagnosedCause, units: UnitSystem): readonly ReadingBar[] {
  if (expected === null) return [];
  return CHANNELS.flatMap((channel: Channel) => {
    const row = CHANNEL_WORDS.find((one) => one.channel === channel);
    const [read, value] = [readings.value[channel], expected.values[channel]];
    if (row === undefined || read === null) return [];
    return [
      {
        label: row.label,
        read,
        expected: value,
        readWords: channelValue(channel, read, units),
        expectedWords: value === null ? 'none' : channelValue(channel, value, units),
      },
    ];
  });
}

/** A remedy that is a change of the plan, with what arrives before and after. */
function DoIt({ code }: { readonly code: CauseCode }) {
  const [before, setBefore] = useState<string | null>(null);
  const remedy = planRemedy(plan.value, code);
  if (before !== null) {
    const now = arrives();
    return (
      <p role="status" data-testid="before-after">
        Done, as one step of the plan. Before: {before}. Now: {groundBusy.value ? 'being worked out…' : now}.
      </p>
    );
  }
  if (remedy === null) return null;
  return (
    <button
      type="button"
      onClick={() => {
        setBefore(arrives());
        takeRemedy(remedy.make);
      }}
    >
      {PLAN_REMEDY_WORDS[remedy.code]}
    </button>
  );
}

/** What the plan brings a day, by its answer. */
function arrives(): string {
  const tanks = evaluation.value?.tanks ?? [];
  const most = tanks.flatMap(({ line }) => line?.deliveryPerDay?.likely ?? []);
  return most.length === 0 ? 'not known' : writeQuantity(Math.max(...most), 'daily-volume', plan.value.units);
}

function Next({ next }: { readonly next: readonly NextTest[] }) {
  const [first, ...rest] = next.slice(0, SHOWN);
  if (first === undefined) return <p>Nothing further to read would tell much.</p>;
  return (
    <section class="next-test" aria-labelledby="next-title" data-test={first.test.code}>
      <h3 id="next-title">What to read or do next</h3>
      <p>
        <strong>{TEST_WORDS[first.test.code]}</strong> About {first.test.minutes} minutes.
      </p>
      <p>It would show:</p>
      <ul>
        {first.shows.map(({ code, value }) => (
          <li key={code}>
            {value === null ? 'nothing certain' : channelValue(first.test.channel, value, plan.value.units)}, if{' '}
            {lowered(CAUSE_NAMES[code])}
          </li>
        ))}
      </ul>
      {rest.length === 0 ? null : (
        <details>
          <summary>Or else</summary>
          <ul>
            {rest.map(({ test }) => (
              <li key={test.code}>
                {TEST_WORDS[test.code]} About {test.minutes} minutes.
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** The weights of the causes before anything is read, to be changed by who knows the place. */
function Weights() {
  const found = diagnosisFound.value;
  const used = found?.ok === true ? found.priors : {};
  return (
    <details class="weights">
      <summary>How likely each is before anything is read</summary>
      <p class="note">
        Weights beside each other; common practice, no source. What the plan itself finds doubtful raises some. Empty
        takes them back.
      </p>
      {[...CAUSES.map(({ code }) => code), 'something-else' as const].map((code) => (
        <ReadField
          key={code}
          label={CAUSE_NAMES[code]}
          note=""
          value={priorOf(code, used)}
          write={(value) => String(Number(value.toPrecision(2)))}
          read={readWeight}
          onValue={(value) => weighCause(code, Number.isNaN(value) ? null : value)}
        />
      ))}
    </details>
  );
}

function readWeight(text: string) {
  if (text.trim() === '') return { ok: true, value: Number.NaN } as const;
  const value = Number(text.replace(',', '.'));
  if (value >= 0 && value <= 100) return { ok: true, value } as const;
  return { ok: false, sentence: `Found “${text}”, expected a number from 0 to 100.` } as const;
}

/** The first cause and the way to it, where the page is too narrow to show both sides. */
export function LikeliestStrip() {
  const found = diagnosisFound.value;
  const first = found?.ok === true ? found.diagnosis.causes[0] : undefined;
  if (first === undefined) return null;
  return (
    <p class="likeliest">
      <a href="#causes">
        {CAUSE_NAMES[first.code]}: {chanceFigure(first.chance)}
      </a>
    </p>
  );
}
