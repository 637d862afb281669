import { readFileSync } from 'node:fs';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { readXml, type XmlElement } from '../../../src/plan/exchange/xml-tree.ts';
import { exportedProfile, FIGURE_COLOURS } from '../../../src/report/exchange/exported-file.ts';
import type { ProfileSource } from '../../../src/report/profile/profile-of-plan.ts';
import { waterWays } from '../../../src/report/tables/water-ways.ts';
import { samplePlan } from '../../plan/sample-plan.ts';
import { groundMade } from '../ground-made.ts';

const name = 'To <the> "hill" & back';
const plan = { ...samplePlan, routes: samplePlan.routes.map((route) => ({ ...route, name })) };
const way = waterWays(plan).find(({ id }) => id === 'delivery-1');

function source(height: (at: number) => number | null): ProfileSource {
  const lines = new Map([['delivery-1', groundMade(200, 1, height)]]);
  return { plan, evaluation: null, lines, points: new Map(), accuracy: null };
}

function profileText(): string {
  if (way === undefined) throw new Error('expected a way of the delivery line');
  return (
    exportedProfile(
      source((at) => (at > 80 && at < 90 ? null : 100 + at / 10)),
      way,
      'metric',
    )?.text ?? ''
  );
}

const classesOf = (element: XmlElement): readonly string[] => [
  ...(element.attributes.get('class')?.split(' ') ?? []),
  ...element.children.flatMap(classesOf),
];

describe('a profile as a file', () => {
  it('is an SVG with its title, its own style and paper, and nothing from elsewhere', () => {
    const document = new DOMParser().parseFromString(profileText(), 'image/svg+xml');
    expect(document.documentElement?.namespaceURI).toBe('http://www.w3.org/2000/svg');
    expect(document.getElementsByTagName('title')[0]?.textContent).toBe(`Profile: ${name}`);
    expect(document.getElementsByTagName('style')).toHaveLength(1);
    expect(profileText()).not.toMatch(/var\(|@import|href|<script|url\((?!#)/);
  });

  it('every drawn part of it has a rule in its style', () => {
    const root = readXml(profileText());
    const style = root.children.find((child) => child.name === 'style')?.text ?? '';
    // These are only groups, or are told apart by what is in them.
    const groups = [
      'ground',
      'pipe',
      'main',
      'water',
      'station',
      'tick',
      'staff',
      'chain',
      'summit',
      'sag',
      'pump',
      'tank',
    ];
    const plain = [...new Set(classesOf(root))].filter((word) => !groups.includes(word));
    expect(plain).toContain('ground-line');
    expect(plain.filter((word) => !style.includes(`.${word}`))).toEqual([]);
  });

  it('its colours are the light ones of the page', () => {
    const tokens =
      readFileSync(new URL('../../../src/app/style/tokens.css', import.meta.url), 'utf8').split('}')[0] ?? '';
    const onPage = Object.keys(FIGURE_COLOURS).map((key) => {
      const token = `--${key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
      return [key, new RegExp(`${token}: (#[0-9a-f]{6})`).exec(tokens)?.[1]];
    });
    expect(FIGURE_COLOURS).toEqual(Object.fromEntries(onPage));
  });

  it('is named after plan and way, and there is none without a height', () => {
    if (way === undefined) throw new Error('expected a way of the delivery line');
    expect(
      exportedProfile(
        source((at) => at),
        way,
        'us',
      )?.name,
    ).toBe('Invented-valley-profile-To-the-hill-back.svg');
    expect(
      exportedProfile(
        source(() => null),
        way,
        'us',
      ),
    ).toBeNull();
  });
});
