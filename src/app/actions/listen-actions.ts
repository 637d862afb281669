import { beatsFromSound } from '../../diagnosis/model/beat-count.ts';
import { listening } from '../state/diagnosis-store.ts';

/** How long the microphone listens, s. */
const LISTEN = 60;
const TICK = 1000;
/** Samples that a block of the recorder holds. */
const BLOCK = 4096;

let stopListening: (() => void) | null = null;

/**
 * Listens to the ram for a minute and counts its beats on this device. Nothing is sent or kept: the sound is looked at for its
 * loudness and let go.
 */
export async function listenForBeats(): Promise<void> {
  const devices: MediaDevices | undefined = navigator.mediaDevices;
  if (devices?.getUserMedia === undefined) {
    listening.value = { kind: 'absent' };
    return;
  }
  listening.value = { kind: 'asking' };
  const stream = await microphone(devices);
  if (stream === null) return;
  const recorded = await record(stream);
  if (recorded === null) return;
  const counted = beatsFromSound(recorded.sound, recorded.rate);
  listening.value = counted === null ? { kind: 'unclear' } : { kind: 'counted', ...counted };
}

/** Stops before the minute is over; what was heard so far is counted. */
export function stopListeningEarly(): void {
  stopListening?.();
}

export function forgetListening(): void {
  listening.value = { kind: 'idle' };
}

async function microphone(devices: MediaDevices): Promise<MediaStream | null> {
  const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  try {
    return await devices.getUserMedia({ audio: plain });
  } catch (error) {
    const missing = error instanceof DOMException && error.name === 'NotFoundError';
    listening.value = { kind: missing ? 'absent' : 'refused' };
    return null;
  }
}

async function record(stream: MediaStream): Promise<{ readonly sound: Float32Array; readonly rate: number } | null> {
  const context = new AudioContext();
  const source = context.createMediaStreamSource(stream);
  const analyser = context.createAnalyser();
  analyser.fftSize = BLOCK;
  source.connect(analyser);
  const rate = context.sampleRate;
  const sound = new Float32Array(LISTEN * rate);
  const block = new Float32Array(BLOCK);
  const start = context.currentTime;
  let filled = 0;
  return new Promise((resolve) => {
    const finish = () => {
      clearInterval(reading);
      clearInterval(telling);
      stopListening = null;
      for (const track of stream.getTracks()) track.stop();
      void context.close();
      resolve({ sound: sound.subarray(0, filled), rate });
    };
    // The analyser holds the latest block; what came since the last look is taken from its end.
    const read = () => {
      const due = Math.min(sound.length, Math.floor((context.currentTime - start) * rate));
      analyser.getFloatTimeDomainData(block);
      const fresh = Math.min(BLOCK, due - filled);
      if (fresh > 0) sound.set(block.subarray(BLOCK - fresh), due - fresh);
      filled = Math.max(filled, due);
      if (filled >= sound.length) finish();
    };
    const reading = setInterval(read, (TICK * BLOCK) / rate / 3);
    const telling = setInterval(() => {
      listening.value = { kind: 'listening', seconds: Math.round(context.currentTime - start) };
    }, TICK);
    stopListening = finish;
    listening.value = { kind: 'listening', seconds: 0 };
  });
}
