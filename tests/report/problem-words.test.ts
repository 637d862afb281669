import { describe, expect, it } from 'vitest';
import { changePoint } from '../../src/plan/edits/edit-points.ts';
import { changeSettings } from '../../src/plan/edits/edit-settings.ts';
import { firstProblem, problemSentence } from '../../src/report/words/refusal-words.ts';
import { planMade } from './plan-made.ts';

const plan = planMade(['source', 'standpipe']);

function problemsOf(edit: ReturnType<typeof changeSettings>) {
  if (edit.ok) throw new Error('the edit was taken, expected it to be refused');
  return edit.problems;
}

describe('a refused edit in words', () => {
  it('names the unit of the file beside a field, not its place in the file', () => {
    const problems = problemsOf(changePoint(plan, 'standpipe-1', 'standpipe', { bore: -0.003 }));
    expect(firstProblem(problems)).toMatch(/^Found -3; expected .*\(in mm\)\.$/);
  });

  it('names no unit for a share', () => {
    const problems = problemsOf(changeSettings(plan, { confidence: 3 }));
    expect(firstProblem(problems)).toMatch(/^Found 3; expected [^()]*\.$/);
  });

  it('says nothing when nothing is wrong', () => {
    expect(firstProblem([])).toBeNull();
  });

  it('tells the place in a file as one would say it', () => {
    const at = (path: string) => problemSentence({ code: 'x', path, found: 'a tree', expected: 'a point' });
    expect(at('features[5].properties.to')).toBe('Point or line 6, “to”: found a tree; expected a point.');
    expect(at('rillwright.measurements[1].rise_m')).toMatch(/^Entry of “measurements”, number 2, “rise”: /);
    expect(at('rillwright.water_temperature_C')).toMatch(/^“water temperature”: /);
    expect(at('line 12, trkseg')).toMatch(/^line 12, track: /);
  });

  it('offers the likely next thing for a file of another kind', () => {
    const words = problemSentence({ code: 'x', path: '', found: '"II*\\u0000\\b\\u0000"', expected: 'JSON' });
    expect(words).toBe('This is a TIFF, not a plan: open it above the map, as an elevation file or as a picture.');
  });

  it('begins with the place in a file and otherwise with a capital', () => {
    const problem = { code: 'unknown-key', path: 'features[3]', found: 'a tree', expected: 'a point' };
    expect(problemSentence(problem)).toBe('Point or line 4: found a tree; expected a point.');
    expect(problemSentence({ ...problem, path: '' })).toBe('Found a tree; expected a point.');
  });
});
