import { clearTaps, takeCount, tapBeat } from '../../actions/diagnosis-actions.ts';
import { forgetListening, listenForBeats, stopListeningEarly } from '../../actions/listen-actions.ts';
import { listening, readings, taps } from '../../state/diagnosis-store.ts';

/** Counts beats by taps, or by the microphone, which sends nothing anywhere. */
export function BeatCounter() {
  return (
    <div class="beat-counter">
      <button type="button" class="tap" onClick={(event) => tapBeat(event.timeStamp)}>
        Tap with every beat
      </button>
      <p class="note" role="status">
        {tapWords()}
      </p>
      {taps.value.length > 0 ? (
        <button type="button" class="quiet" onClick={clearTaps}>
          Tap anew
        </button>
      ) : null}
      <Microphone />
    </div>
  );
}

function tapWords(): string {
  const count = taps.value.length;
  if (count === 0) return 'Thirty taps give beats a minute and how evenly they come. Enter or the space bar taps too.';
  const { beatsPerMinute, jitter } = readings.value;
  const so = `${count} of 30`;
  if (count < 4 || beatsPerMinute === null) return so;
  const uneven = jitter === null ? '' : `, uneven by ${Math.round(100 * jitter)} %`;
  return `${so}: ${Math.round(beatsPerMinute)} a minute${uneven}`;
}

function Microphone() {
  const heard = listening.value;
  switch (heard.kind) {
    case 'asking':
      return <p role="status">The browser asks whether the planner may listen.</p>;
    case 'listening':
      return (
        <p role="status">
          Listening: {heard.seconds} of 60 s{' '}
          <button type="button" onClick={stopListeningEarly}>
            Enough
          </button>
        </p>
      );
    case 'counted':
      return (
        <p role="status">
          Heard {Math.round(heard.beatsPerMinute)} beats a minute, from {heard.beats} beats.{' '}
          <button type="button" onClick={takeCount}>
            Take it
          </button>{' '}
          <button type="button" class="quiet" onClick={forgetListening}>
            Cancel
          </button>
        </p>
      );
    case 'unclear':
      return <Told words="No beat stood out. Hold the telephone nearer, away from the wind, or tap." />;
    case 'refused':
      return <Told words="The microphone was not allowed. Tap the beats instead, or allow it in the browser." />;
    case 'absent':
      return <Told words="This device gives the page no microphone. Tap the beats instead." />;
    default:
      return (
        <button type="button" class="quiet" onClick={() => void listenForBeats()}>
          Count by the microphone for a minute (nothing is sent)
        </button>
      );
  }
}

function Told({ words }: { readonly words: string }) {
  return (
    <p role="status">
      {words}{' '}
      <button type="button" class="quiet" onClick={forgetListening}>
        OK
      </button>
    </p>
  );
}
