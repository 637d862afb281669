import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureNode } from '../../src/report/figure/figure-node.ts';
import { svgText } from '../../src/report/figure/figure-svg.ts';
import { fitText, TakenRoom, textWidth } from '../../src/report/figure/text-room.ts';
import { pointerNoteOf } from '../../src/report/words/pointer-words.ts';
import { readDegrees, readPosition, writeDegrees } from '../../src/report/words/position-words.ts';
import { readTimes } from '../../src/report/words/quantity-words.ts';
import { safeFileName } from '../../src/report/words/safe-file-name.ts';

describe('positions in words', () => {
  it('come back within a centimetre of the ground', () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (lon) => {
        const read = readDegrees(writeDegrees(lon), 'lon');
        // Seven decimals: 0.5e-7 degrees are 5.6 mm on the equator of 40 075 km.
        expect(read.ok && Math.abs(read.value - lon)).toBeLessThanOrEqual(0.5e-7 + 1e-12);
      }),
    );
  });

  it.each(['-31.2 37.9', '-31.2, 37.9', '-31.2,37.9', '−31.2° 37.9°', ' -31.2;37.9 '])('are read from “%s”', (text) => {
    expect(readPosition(text)).toEqual({ ok: true, value: { lon: -31.2, lat: 37.9 } });
  });

  it.each(['', '-31.2', '1 2 3', 'here there', '10 91', '181 0'])('are refused in a sentence: “%s”', (text) => {
    const read = readPosition(text);
    expect(read.ok).toBe(false);
    expect(read.ok ? '' : read.sentence).toMatch(/\.$/);
  });
});

describe('file names', () => {
  it('keep only letters, digits and hyphens, and are never empty or reserved', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (name) => {
        const safe = safeFileName(name, 'plan');
        expect(safe).toMatch(/^[\p{L}\p{N}-]{1,160}$/u);
        expect(safe).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)$/i);
      }),
    );
  });

  it.each([
    ['Upper pasture, spring 2', 'Upper-pasture-spring-2'],
    ['../../etc/passwd', 'etc-passwd'],
    ['<b>Ram</b>', 'b-Ram-b'],
    ['Quelle für Kühe', 'Quelle-für-Kühe'],
    ['…', 'plan'],
    ['nul', 'plan'],
  ])('are made of “%s”', (name, expected) => {
    expect(safeFileName(name, 'plan')).toBe(expected);
  });
});

describe('figures as text', () => {
  it('escape whatever a name brings', () => {
    const text = svgText(figureNode('text', { title: '"><script>' }, '<script>&\u0000'));
    expect(text).toBe('<text title="&quot;&gt;&lt;script&gt;">&lt;script&gt;&amp;</text>\n');
  });

  it('refuse a place that is no number', () => {
    expect(() => figureNode('line', { x1: Number.NaN })).toThrow(/finite, found NaN/);
  });
});

describe('room for labels', () => {
  it('is given to boxes that never touch and never leave the figure', () => {
    const box = fc.record({
      left: fc.integer({ min: -20, max: 220 }),
      top: fc.integer({ min: -20, max: 120 }),
      width: fc.integer({ min: 1, max: 60 }),
      height: fc.integer({ min: 1, max: 20 }),
    });
    fc.assert(
      fc.property(fc.array(fc.array(box, { minLength: 1, maxLength: 4 }), { maxLength: 30 }), (wishes) => {
        const room = new TakenRoom({ left: 0, top: 0, width: 200, height: 100 });
        const taken = wishes.map((places) => room.take(places)).filter((each) => each !== null);
        taken.forEach((one, index) => {
          expect(one.left >= 0 && one.top >= 0 && one.left + one.width <= 200 && one.top + one.height <= 100).toBe(
            true,
          );
          for (const other of taken.slice(index + 1)) {
            const apart =
              one.left + one.width <= other.left ||
              other.left + other.width <= one.left ||
              one.top + one.height <= other.top ||
              other.top + other.height <= one.top;
            expect(apart).toBe(true);
          }
        });
      }),
    );
  });

  it('cuts a long name to fit and leaves a short one alone', () => {
    const long = 'A tank with a name that somebody wrote in one breath';
    expect(textWidth(fitText(long, 12, 100), 12)).toBeLessThanOrEqual(100);
    expect(fitText(long, 12, 100)).toMatch(/…$/);
    expect(fitText('Tank', 12, 100)).toBe('Tank');
  });
});

describe('times of fillings', () => {
  it('are read as seconds or with their unit', () => {
    expect(readTimes('31  32.5;30')).toEqual({ ok: true, value: [31, 32.5, 30] });
    expect(readTimes('1min 30s')).toEqual({ ok: true, value: [60, 30] });
  });

  it('are refused when there are none or one is no time', () => {
    expect(readTimes(' ').ok).toBe(false);
    expect(readTimes('31 soon').ok).toBe(false);
  });
});

describe('the note at the pointer', () => {
  const points = [
    { id: 's', role: 'source' as const, ground: 100, groundFrom: 'dem' as const, level: 100.4, smoothing: 0 },
    { id: 'p', role: 'pump' as const, ground: 95, groundFrom: 'dem' as const, level: 95.2, smoothing: 0 },
  ];
  const note = (placing: 'pump' | 'tank' | 'source', ground: number | null) =>
    pointerNoteOf({ placing, ground, points, units: 'metric' });

  it('tells how far a pump lies below the water of the source', () => {
    expect(note('pump', 95.4)).toBe('5.00\u202fm below the source');
  });

  it('tells how far a tank lies above the pump', () => {
    expect(note('tank', 125.2)).toBe('30.00\u202fm above the pump');
  });

  it('says nothing where there is no height or nothing to compare with', () => {
    expect(note('pump', null)).toBeNull();
    expect(note('source', 90)).toBeNull();
  });
});
