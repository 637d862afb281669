import { expect, test } from 'vitest';
import { visibleText } from '../../src/units/visible-text.ts';

test('a sign that turns or hides a name is shown as what it is', () => {
  // Unicode Technical Report 36: the classic of a file whose ending is turned round.
  expect(visibleText('plan\u202Enosj.exe')).toBe('plan⟨U+202E⟩nosj.exe');
  for (const sign of ['\u200b', '\u200e', '\u200f', '\u2066', '\u2069', '\ufeff', '\u00ad', '\u{e0041}', '\u0007']) {
    const shown = visibleText(`a${sign}b`);
    expect(shown).toMatch(/^a⟨U\+[0-9A-F]{4,5}⟩b$/);
    expect(visibleText(shown)).toBe(shown);
  }
});

test('names of any script are left as they are', () => {
  for (const name of [
    'Spur tank',
    'خزان المياه',
    'מיכל',
    'क्षेत्र',
    '水槽',
    'naïve – “tank”',
    'two\nlines\tof a note',
    '👩‍🌾',
  ]) {
    expect(visibleText(name)).toBe(name);
  }
});
