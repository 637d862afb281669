import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jsonLimits, parseJson } from '../../src/plan/file/json-text.ts';

function codeOf(text: string): string | undefined {
  const read = parseJson(text);
  return read.ok ? undefined : read.problems[0]?.code;
}

describe('reading JSON strictly', () => {
  test('whatever is JSON reads as the platform reads it', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const expected: unknown = JSON.parse(text, (_, value) => (Object.is(value, -0) ? 0 : value));
        if (/"__proto__"/.test(text)) return;
        expect(parseJson(text)).toEqual({ ok: true, value: expected });
      }),
    );
  });

  test('a byte order mark, spaces and line ends around values are no matter', () => {
    expect(parseJson('\uFEFF \r\n{ "a" :\t[ 1 , 2 ] } \n')).toEqual({ ok: true, value: { a: [1, 2] } });
  });

  test('escapes give their characters, half a surrogate pair included', () => {
    expect(parseJson('"\\u0041\\n\\/\\ud800 \\"\\\\"')).toEqual({ ok: true, value: 'A\n/\ud800 "\\' });
  });

  // The n_ cases of RFC 8259, section 2 to 7: each breaks one rule of the grammar.
  test.each([
    '',
    '{',
    '[1,]',
    '{"a":1,}',
    '{a:1}',
    "{'a':1}",
    '01',
    '+1',
    '.5',
    '1.',
    '1e',
    '-',
    'NaN',
    'Infinity',
    'tru',
    '"a',
    '"\\x"',
    '"\\u12"',
    '"\n"',
    '[1] 2',
    '// c\n1',
    '[1 2]',
    '{"a" 1}',
  ])('refuses %j, which breaks the grammar', (text) => {
    expect(codeOf(text)).toBe('not-json');
    expect(() => JSON.parse(text)).toThrow();
  });

  test('says where: line and column', () => {
    const read = parseJson('{\n  "a": 1,\n  "b": ?\n}');
    expect(read).toEqual({
      ok: false,
      problems: [{ code: 'not-json', path: 'line 3, column 8', found: '"?\\n}"', expected: 'a value' }],
    });
  });

  test('a key given twice is refused, not silently the last one', () => {
    expect(codeOf('{"a":1,"a":2}')).toBe('repeated-key');
  });

  test('a number that no double holds is refused, not silently infinite', () => {
    expect(codeOf('[1e999]')).toBe('out-of-range');
    expect(codeOf('[-1e999]')).toBe('out-of-range');
    expect(codeOf(`[${'9'.repeat(400)}]`)).toBe('out-of-range');
  });

  test('a key that names a prototype is refused and touches no prototype', () => {
    expect(codeOf('{"__proto__": {"polluted": 1}}')).toBe('unknown-key');
    expect(Reflect.get({}, 'polluted')).toBeUndefined();
  });

  test('nesting, lists, values and text beyond any plan are refused', () => {
    expect(codeOf('['.repeat(1_000_000))).toBe('too-deep');
    expect(codeOf('{"a":'.repeat(1_000_000))).toBe('too-deep');
    expect(codeOf(`[${'0,'.repeat(1_000_000)}0]`)).toBe('too-many');
    const list = `[${'0,'.repeat(jsonLimits.listLength - 1)}0]`;
    expect(codeOf(`[${Array.from({ length: 30 }, () => list).join(',')}]`)).toBe('too-large');
    expect(codeOf(' '.repeat(jsonLimits.characters + 1))).toBe('too-large');
    expect(codeOf(list)).toBeUndefined();
  });
});
