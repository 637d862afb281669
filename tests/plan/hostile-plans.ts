import { writePlan } from '../../src/plan/file/write-plan.ts';
import { seeded } from '../terrain/hostile-corpus.ts';
import { samplePlan } from './sample-plan.ts';

export interface HostilePlan {
  readonly what: string;
  readonly text: string;
}

/** What a value of a plan is replaced by, as it stands in the file. */
const NASTY = [
  'NaN',
  'Infinity',
  '1e400',
  '1e308',
  '-1e308',
  '-0',
  '1e-400',
  '"12"',
  'null',
  'true',
  '[]',
  '{}',
  '[[[[[[]]]]]]',
  '""',
  '"<img src=x onerror=alert(1)>"',
  '"\\u202e\\u0000\\ud800"',
  '{"__proto__":{"x":1}}',
  `"${'n'.repeat(20_000)}"`,
  `[${'0,'.repeat(20_000)}0]`,
];

/** Where each value of a JSON text begins and ends that is a number, a text or a word. */
function valuesIn(text: string): { readonly from: number; readonly to: number }[] {
  const tokens = /"(?:[^"\\]|\\.)*"(?!\s*:)|-?\d[\d.eE+-]*|true|false|null/g;
  return [...text.matchAll(tokens)].map(({ 0: found, index }) => ({ from: index, to: index + found.length }));
}

/** Plan files cut short, with letters changed, with parts moved, and with each kind of nonsense for their values. */
export function damagedPlans(seed: number): readonly HostilePlan[] {
  const random = seeded(seed);
  const upTo = (most: number) => Math.floor(random() * most);
  const text = writePlan(samplePlan);
  const values = valuesIn(text);
  const cut = Array.from({ length: 60 }, (_, k) => ({
    what: `a plan cut short (${k})`,
    text: text.slice(0, upTo(text.length)),
  }));
  const changed = Array.from({ length: 80 }, (_, k) => {
    const letters = Array.from(text);
    for (let n = 0; n <= k / 10; n += 1) letters[upTo(letters.length)] = String.fromCharCode(upTo(128));
    return { what: `a plan with letters changed (${k})`, text: letters.join('') };
  });
  const moved = Array.from({ length: 30 }, (_, k) => {
    const from = upTo(text.length);
    const to = from + upTo(text.length - from);
    return {
      what: `a plan with its parts moved (${k})`,
      text: text.slice(to) + text.slice(from, to) + text.slice(0, from),
    };
  });
  const replaced = NASTY.flatMap((nasty) =>
    Array.from({ length: 12 }, (_, k) => {
      const { from, to } = values[upTo(values.length)] ?? { from: 0, to: 0 };
      const what = `a plan with ${nasty.slice(0, 30)} for ${text.slice(from, to).slice(0, 30)} (${k})`;
      return { what, text: text.slice(0, from) + nasty + text.slice(to) };
    }),
  );
  return [...cut, ...changed, ...moved, ...replaced];
}
