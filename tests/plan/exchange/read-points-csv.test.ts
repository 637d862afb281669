import { describe, expect, it } from 'vitest';
import { placesIn, previewOf, refusalOf } from './read-text.ts';

describe('a table of points', () => {
  it.each([
    ['commas', 'name,lat,lon\nSpring,38.5,-40.25\n'],
    ['semicolons and decimal commas', 'Latitude;Longitude;Name\n38,5;-40,25;Spring\n'],
    ['tabs', 'lon\tlat\tname\r\n-40.25\t38.5\tSpring\r\n'],
    ['quotes and a byte order mark', '\uFEFF"name","lat","lng"\n"Spring","38.5","-40,25"'],
    ['units in its heading', 'point,latitude (deg),longitude_deg\nSpring,38.5°,−40.25\n'],
    ['blank lines', '\n\nname,lat,lon\n\nSpring,38.5,-40.25\n\n'],
  ])('is read with %s', (_, text) => {
    expect(placesIn(previewOf(text))).toEqual([['point', 'Spring', [[-40.25, 38.5]]]]);
  });

  it('quotes hold delimiters, quotes and line ends', () => {
    // RFC 4180, section 2, rules 5 to 7.
    const text = 'name,lat,lon,note\n"a ""b"", c",1,2,"one\ntwo"\nd,3,4,\n';
    const { items } = previewOf(text);
    expect(items.map(({ name, note, path }) => [name, note, path])).toEqual([
      ['a "b", c', 'one\ntwo', 'line 2'],
      ['d', '', 'line 4'],
    ]);
  });

  it('a height is kept apart and a role taken as a suggestion', () => {
    const [item] = previewOf('name,role,lat,lon,ele\nA,tank,1,2,"104,5"\n').items;
    expect(item).toMatchObject({ suggested: 'tank', heights: { count: 1, lowest: 104.5, highest: 104.5 } });
  });

  it('x and y are refused until the user says what they are', () => {
    const text = 'x,y,name\n-40.25,38.5,A\n';
    expect(refusalOf(text)).toMatchObject({ code: 'unstated-axes', found: 'columns x and y' });
    expect(placesIn(previewOf(text, { xy: 'lon-lat' }))).toEqual([['point', 'A', [[-40.25, 38.5]]]]);
  });

  it.each([
    ['name,lat\nA,1\n', 'missing-column'],
    ['38.5,-40.25\n', 'missing-column'],
    ['lat,lat,lon\n1,2,3\n', 'listed-twice'],
    ['name,lat,lon\n"A,1,2\n', 'not-csv'],
    ['name,lat,lon\n"A"x,1,2\n', 'not-csv'],
    ['\n  \n', 'empty'],
  ])('%j is refused: %s', (text, code) => {
    expect(refusalOf(text)).toMatchObject({ code });
  });

  it('a row that is too short or out of range has a problem with its line', () => {
    const { items } = previewOf('name,lat,lon\nA,1\nB,95,2\nC,1,2\n');
    expect(items.map(({ problems }) => problems.map(({ code, path }) => [code, path]))).toEqual([
      [['not-a-number', 'line 2']],
      [['out-of-range', 'line 3']],
      [],
    ]);
  });
});
