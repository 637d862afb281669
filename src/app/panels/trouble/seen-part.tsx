import { stateOf } from '../../../diagnosis/model/readings.ts';
import {
  CHANNEL_WORDS,
  type ChannelWords,
  doubtWords,
  SIGN_WORDS,
  STATE_WORDS,
} from '../../../diagnosis/words/channel-words.ts';
import { SIGNS, STATES } from '../../../diagnosis/words/reading-keys.ts';
import { enterReading, seeSign, seeState } from '../../actions/diagnosis-actions.ts';
import { readings } from '../../state/diagnosis-store.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';
import { BeatCounter } from './beat-counter.tsx';

/** What is seen and read at the pump now. */
export function SeenPart() {
  return (
    <section aria-labelledby="seen-title">
      <h3 id="seen-title">What do you see?</h3>
      <States />
      <Signs />
      <h3>What did you read?</h3>
      <p class="note">Every reading is optional, in any unit. A gauge on a tube with air in it invents swings.</p>
      <BeatCounter />
      <Fields />
      <YesNo />
    </section>
  );
}

function States() {
  const { state } = readings.value;
  return (
    <fieldset class="big-choices">
      <legend>How it stands</legend>
      {STATES.map((each) => (
        <label key={each}>
          <input type="radio" name="ram-state" checked={state === each} onChange={() => seeState(each)} />
          <span>{STATE_WORDS[each]}</span>
        </label>
      ))}
      <label>
        <input type="radio" name="ram-state" checked={state === null} onChange={() => seeState(null)} />
        <span>I cannot tell, or it never started</span>
      </label>
    </fieldset>
  );
}

function Signs() {
  return (
    <fieldset class="signs">
      <legend>And</legend>
      {SIGNS.map((sign) => (
        <label key={sign}>
          <input
            type="checkbox"
            checked={readings.value.signs.includes(sign)}
            onChange={(event) => seeSign(sign, event.currentTarget.checked)}
          />
          <span>{SIGN_WORDS[sign]}</span>
        </label>
      ))}
      <label>
        <input
          type="checkbox"
          checked={readings.value.deliveryAtTank === 0}
          onChange={(event) => enterReading('deliveryAtTank', event.currentTarget.checked ? 0 : null)}
        />
        <span>Nothing arrives at the tank</span>
      </label>
    </fieldset>
  );
}

function Fields() {
  const state = stateOf(readings.value);
  const shown = CHANNEL_WORDS.filter(({ when }) => when === undefined || state === null || when.includes(state));
  return (
    <div class="reading-fields">
      {shown.map((row) => (
        <ReadingField key={row.channel} row={row} />
      ))}
    </div>
  );
}

function ReadingField({ row }: { readonly row: ChannelWords }) {
  const { channel, label, kind, factor, note } = row;
  const value = readings.value[channel];
  const beside = (plan.value.records ?? []).length > 0 ? 'record' : 'none';
  const doubt = value === null ? '' : doubtWords(channel, beside, plan.value.units);
  const words = [note ?? '', doubt].filter((part) => part !== '').join(' ');
  return (
    <QuantityField
      label={label}
      kind={kind}
      units={plan.value.units}
      value={value === null ? null : value * factor}
      optional
      {...(words === '' ? {} : { note: words })}
      onValue={(typed) => enterReading(channel, typed === null ? null : typed / factor)}
    />
  );
}

function YesNo() {
  if (stateOf(readings.value) === 'runs') return null;
  return (
    <>
      <Question channel="runsThrottled" words="Does it run with the delivery valve nearly shut?" />
      <Question channel="lineHolds" words="Does the delivery line, filled against a shut valve, keep its water?" />
    </>
  );
}

const ANSWERS = [
  { words: 'Yes', value: 1 },
  { words: 'No', value: 0 },
  { words: 'Not tried', value: null },
] as const;

function Question({ channel, words }: { readonly channel: 'runsThrottled' | 'lineHolds'; readonly words: string }) {
  return (
    <fieldset class="yes-no">
      <legend>{words}</legend>
      {ANSWERS.map((answer) => (
        <label key={answer.words}>
          <input
            type="radio"
            name={channel}
            checked={readings.value[channel] === answer.value}
            onChange={() => enterReading(channel, answer.value)}
          />
          <span>{answer.words}</span>
        </label>
      ))}
    </fieldset>
  );
}
