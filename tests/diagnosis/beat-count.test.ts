import { describe, expect, it } from 'vitest';
import { beatsFromSound, beatsFromTaps } from '../../src/diagnosis/model/beat-count.ts';
import { seeded } from '../../src/diagnosis/model/seeded.ts';

const RATE = 8000;

/** A made-up recording: a clack, a thud some tenths of a beat later, the waste water's hiss, and wind. */
function recording(beatsPerMinute: number, seconds: number, options: { noise: number; jitter: number; seed: number }) {
  const random = seeded(options.seed);
  const sound = new Float32Array(seconds * RATE);
  let wind = 0;
  for (let i = 0; i < sound.length; i += 1) {
    wind += 0.002 * (random.uniform() - 0.5 - wind * 0.01);
    sound[i] = options.noise * (random.uniform() - 0.5) + options.noise * 4 * wind;
  }
  const beat = 60 / beatsPerMinute;
  for (let at = 0.3; at < seconds; at += beat * (1 + options.jitter * random.normal())) {
    strike(sound, at, 0.8, 900, random);
    strike(sound, at + 0.35 * beat, 0.25, 240, random);
  }
  return sound;
}

function strike(sound: Float32Array, at: number, loud: number, pitch: number, random: ReturnType<typeof seeded>) {
  const start = Math.floor(at * RATE);
  for (let i = 0; i < 0.12 * RATE && start + i < sound.length; i += 1) {
    const fade = Math.exp((-i / RATE) * 45);
    const tone = Math.sin((2 * Math.PI * pitch * i) / RATE) + random.uniform() - 0.5;
    sound[start + i] = (sound[start + i] as number) + loud * fade * tone;
  }
}

describe('beats counted from a recording', () => {
  it.each([30, 42, 58, 75, 96, 120, 150, 180, 200])('%d a minute within 2 %%, through noise', (beats) => {
    for (const [noise, jitter] of [
      [0.02, 0],
      [0.15, 0.01],
      [0.3, 0.02],
    ] as const) {
      const counted = beatsFromSound(recording(beats, 60, { noise, jitter, seed: beats }), RATE);
      expect(Math.abs((counted?.beatsPerMinute ?? 0) / beats - 1)).toBeLessThan(0.02);
    }
  });

  it('hears no beat in wind and hiss alone', () => {
    const random = seeded(4);
    const sound = Float32Array.from({ length: 30 * RATE }, () => 0.3 * (random.uniform() - 0.5));
    expect(beatsFromSound(sound, RATE)).toBeNull();
    expect(beatsFromSound(new Float32Array(30 * RATE), RATE)).toBeNull();
  });
});

describe('beats counted by taps', () => {
  const taps = (beat: number, count: number, jitter: number) => {
    const random = seeded(9);
    return Array.from({ length: count }, (_, i) => i * beat + jitter * beat * random.normal());
  };

  it.each([0.3, 1, 2])('thirty taps %d s apart', (beat) => {
    const counted = beatsFromTaps(taps(beat, 30, 0.03));
    expect(Math.abs((counted?.beatsPerMinute ?? 0) / (60 / beat) - 1)).toBeLessThan(0.02);
    // Each gap has the error of two taps.
    expect(Math.abs((counted?.jitter ?? 0) - 0.03 * Math.SQRT2)).toBeLessThan(0.02);
  });

  it('forgives a tap that was missed', () => {
    const at = taps(1, 30, 0).filter((_, i) => i !== 12);
    expect(beatsFromTaps(at)?.beatsPerMinute).toBeCloseTo(60, 6);
  });

  it('says nothing from three taps', () => {
    expect(beatsFromTaps([0, 1, 2])).toBeNull();
    expect(beatsFromTaps([])).toBeNull();
  });
});
