import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import { setYieldReadings } from '../../../plan/edits/edit-water.ts';
import type { YieldReading } from '../../../plan/model/plan.ts';
import { estimateWords } from '../../../report/words/measure-words.ts';
import { drawnWords } from '../../../report/words/pump-size-words.ts';
import { readTimes, writeTimes } from '../../../report/words/quantity-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import type { Problem } from '../../../units/outcome.ts';
import { edit, sayRefusal } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';
import { ReadField } from '../fields/read-field.tsx';

const FIRST_TIMED: YieldReading = { kind: 'timed', volume: 0.01, volumePlusMinus: 0.0002, times: [30] };
const FIRST_STATED: YieldReading = { kind: 'stated', flow: 0.0005, plusMinus: 0.0001 };

/** What the source gives: readings, and how much of it may be taken. */
export function WaterInputs() {
  const { yieldReadings, units, dryShare, leftInStream } = plan.value;
  const set = (readings: readonly YieldReading[]) => edit((p) => setYieldReadings(p, readings));
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
      <p class="buttons">
        <button type="button" onClick={() => sayRefusal(set([...yieldReadings, FIRST_TIMED]))}>
          Add a bucket test
        </button>
        <button type="button" onClick={() => sayRefusal(set([...yieldReadings, FIRST_STATED]))}>
          Add a known flow
        </button>
      </p>
      <div class="fields">
        <QuantityField
          label="Dry-season flow"
          kind="share"
          value={dryShare}
          units={units}
          optional
          note="leave blank if unknown"
          onValue={(share) => edit((p) => changeSettings(p, { dryShare: share }))}
        />
        <QuantityField
          label="Left in the stream"
          kind="share"
          value={leftInStream}
          units={units}
          optional
          note="leave blank if unknown"
          onValue={(share) => edit((p) => changeSettings(p, { leftInStream: share }))}
        />
      </div>
      <SourceFacts />
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
    <div class="fields">
      <QuantityField
        label="Container"
        kind="volume"
        value={reading.volume}
        units={units}
        onValue={(volume) => (volume === null ? [] : onReading({ ...reading, volume }))}
      />
      <QuantityField
        label="Plus or minus"
        kind="volume"
        value={reading.volumePlusMinus}
        units={units}
        onValue={(volumePlusMinus) => (volumePlusMinus === null ? [] : onReading({ ...reading, volumePlusMinus }))}
      />
      <ReadField
        label="Times to fill it"
        note="seconds (or 1:10), separated by spaces"
        value={reading.times}
        write={writeTimes}
        read={readTimes}
        onValue={(times) => onReading({ ...reading, times })}
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
