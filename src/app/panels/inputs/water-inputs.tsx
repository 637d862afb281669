import { useState } from 'preact/hooks';
import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import { setYieldReadings } from '../../../plan/edits/edit-water.ts';
import type { YieldReading } from '../../../plan/model/plan.ts';
import { estimateWords } from '../../../report/words/measure-words.ts';
import { drawnWords } from '../../../report/words/pump-size-words.ts';
import { readTimes, writeTimes } from '../../../report/words/quantity-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import { LITRE_M3, US_GALLON_M3 } from '../../../units/factor.ts';
import type { Problem } from '../../../units/outcome.ts';
import { edit, formDone, sayRefusal } from '../../actions/edit-actions.ts';
import { askedForm } from '../../state/measure-store.ts';
import { evaluation, plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';
import { ReadField } from '../fields/read-field.tsx';

type TimedReading = Extract<YieldReading, { kind: 'timed' }>;
type StatedReading = Extract<YieldReading, { kind: 'stated' }>;

/** A usual bucket and how well its content is known, round in the units that are shown. */
const BUCKET = {
  metric: { volume: 10 * LITRE_M3, volumePlusMinus: 0.2 * LITRE_M3 },
  us: { volume: 5 * US_GALLON_M3, volumePlusMinus: US_GALLON_M3 / 8 },
} as const;
/** ± of a flow that somebody states without one, as a share of it: no better than a guess. Common practice, no source. */
const STATED_DOUBT = 0.25;

/** A reading that is being entered: nothing of it is in the plan until what was read is typed. */
type Draft = 'none' | 'timed' | 'stated';

/** What the source gives: readings, and how much of it may be taken. */
export function WaterInputs() {
  const { yieldReadings, units, dryShare, leftInStream } = plan.value;
  const [chosen, setDraft] = useState<Draft>('none');
  const asked = askedForm.value?.kind === 'bucket';
  const draft: Draft = asked ? 'timed' : chosen;
  const set = (readings: readonly YieldReading[]) => edit((p) => setYieldReadings(p, readings));
  const leave = () => {
    formDone();
    setDraft('none');
  };
  const enter = (reading: YieldReading) => {
    const problems = set([...yieldReadings, reading]);
    if (problems.length === 0) leave();
    return problems;
  };
  return (
    <div>
      {yieldReadings.map((reading, index) => (
        <fieldset key={`${reading.kind} ${index}`} class="reading">
          <legend>
            {reading.kind === 'timed' ? 'Bucket test' : 'A known flow'}{' '}
            <button
              type="button"
              class="quiet danger"
              onClick={() => sayRefusal(set(yieldReadings.toSpliced(index, 1)))}
            >
              delete<span class="unseen"> reading {index + 1}</span>
            </button>
          </legend>
          <ReadingFields reading={reading} onReading={(next) => set(yieldReadings.with(index, next))} />
        </fieldset>
      ))}
      {draft === 'none' ? (
        <p class="buttons">
          <button type="button" onClick={() => setDraft('timed')}>
            Add a bucket test
          </button>
          <button type="button" onClick={() => setDraft('stated')}>
            Add a known flow
          </button>
        </p>
      ) : (
        <fieldset class="reading">
          <legend>
            {draft === 'timed' ? 'New bucket test' : 'New known flow'}{' '}
            <button type="button" class="quiet" onClick={leave}>
              cancel
            </button>
          </legend>
          {draft === 'timed' ? <NewTimed onReading={enter} /> : <NewStated onReading={enter} />}
        </fieldset>
      )}
      <div class="fields">
        <QuantityField
          label="Dry-season flow"
          kind="share"
          value={dryShare}
          units={units}
          optional
          note="% of what you measured; a spring read in a wet month says little about a dry one"
          onValue={(share) => edit((p) => changeSettings(p, { dryShare: share }))}
        />
        <QuantityField
          label="Must stay in the stream"
          kind="share"
          value={leftInStream}
          units={units}
          optional
          note="% of it; leave blank if unknown"
          onValue={(share) => edit((p) => changeSettings(p, { leftInStream: share }))}
        />
      </div>
      <SourceFacts />
    </div>
  );
}

/** A bucket test counts once its times are typed. */
function NewTimed({ onReading }: { readonly onReading: (reading: TimedReading) => readonly Problem[] }) {
  const { units } = plan.value;
  const [bucket, setBucket] = useState<Pick<TimedReading, 'volume' | 'volumePlusMinus'>>(BUCKET[units]);
  const [times, setTimes] = useState<readonly number[]>([]);
  const keep = (changes: Partial<typeof bucket>): readonly Problem[] => {
    setBucket({ ...bucket, ...changes });
    return [];
  };
  return (
    <TimedFields
      reading={{ kind: 'timed', ...bucket, times }}
      onBucket={keep}
      onTimes={(typed) => {
        setTimes(typed);
        return onReading({ kind: 'timed', ...bucket, times: typed });
      }}
    />
  );
}

/** A known flow counts once it is typed. */
function NewStated({ onReading }: { readonly onReading: (reading: StatedReading) => readonly Problem[] }) {
  return (
    <div class="fields">
      <QuantityField
        label="Flow"
        note="a quarter of it is taken as its plus or minus until you say"
        kind="flow"
        value={null}
        units={plan.value.units}
        onValue={(flow) => (flow === null ? [] : onReading({ kind: 'stated', flow, plusMinus: STATED_DOUBT * flow }))}
      />
    </div>
  );
}

function ReadingFields({
  reading,
  onReading,
}: {
  readonly reading: YieldReading;
  readonly onReading: (next: YieldReading) => readonly Problem[];
}) {
  const { units } = plan.value;
  if (reading.kind === 'stated') {
    return (
      <div class="fields">
        <QuantityField
          label="Flow"
          kind="flow"
          value={reading.flow}
          units={units}
          onValue={(flow) => (flow === null ? [] : onReading({ ...reading, flow }))}
        />
        <QuantityField
          label="Plus or minus"
          kind="flow"
          value={reading.plusMinus}
          units={units}
          onValue={(plusMinus) => (plusMinus === null ? [] : onReading({ ...reading, plusMinus }))}
        />
      </div>
    );
  }
  return (
    <TimedFields
      reading={reading}
      onBucket={(changes) => onReading({ ...reading, ...changes })}
      onTimes={(times) => onReading({ ...reading, times })}
    />
  );
}

/** Fields of a bucket test. */
function TimedFields({
  reading,
  onBucket,
  onTimes,
}: {
  readonly reading: TimedReading;
  readonly onBucket: (changes: Partial<Pick<TimedReading, 'volume' | 'volumePlusMinus'>>) => readonly Problem[];
  readonly onTimes: (times: readonly number[]) => readonly Problem[];
}) {
  const { units } = plan.value;
  return (
    <div class="fields">
      <QuantityField
        label="Container"
        kind="volume"
        value={reading.volume}
        units={units}
        onValue={(volume) => (volume === null ? [] : onBucket({ volume }))}
      />
      <QuantityField
        label="Plus or minus"
        kind="volume"
        value={reading.volumePlusMinus}
        units={units}
        onValue={(volumePlusMinus) => (volumePlusMinus === null ? [] : onBucket({ volumePlusMinus }))}
      />
      <ReadField
        label="Times to fill it"
        note="seconds (or 1:10), separated by spaces"
        value={reading.times}
        write={writeTimes}
        read={readTimes}
        onValue={onTimes}
      />
    </div>
  );
}

function SourceFacts() {
  const source = evaluation.value?.source;
  if (source?.flow == null) return null;
  const { units } = plan.value;
  const flow = estimateWords(source.flow, 'flow', units);
  const available = source.available === null ? null : estimateWords(source.available, 'flow', units);
  const drawn = drawnWords(source, units);
  return (
    <dl class="facts">
      <div data-field="source-flow" data-value={source.flow.likely}>
        <dt>{TERMS.sourceFlow.plain}</dt>
        <dd>
          {flow.likely} {flow.range === null ? null : <small>{flow.range}</small>}
        </dd>
      </div>
      {available === null ? null : (
        <div data-field="source-available" data-value={source.available?.likely ?? ''}>
          <dt>{TERMS.available.plain}</dt>
          <dd>
            {available.likely} {available.range === null ? null : <small>{available.range}</small>}
          </dd>
        </div>
      )}
      {drawn === null ? null : (
        <div data-field="source-drawn" data-value={source.drawn?.mean ?? ''}>
          <dt>Troughs on the source use</dt>
          <dd>{drawn}</dd>
        </div>
      )}
    </dl>
  );
}
