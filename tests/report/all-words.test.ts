import { readdirSync, readFileSync } from 'node:fs';
import { parseSync } from 'oxc-parser';
import { beforeAll, describe, expect, it } from 'vitest';
import { fittingRows } from '../../src/handbook/fitting-loss.ts';
import { pipeRows } from '../../src/handbook/pipe-rows.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { answerSentence, arrivesSentence, firstSentence } from '../../src/report/findings/answer-words.ts';
import { FINDING_TEXTS } from '../../src/report/findings/finding-texts.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';
import { measureReason } from '../../src/report/findings/measure-reason.ts';
import { GLOSSARY, meaningFor } from '../../src/report/glossary/glossary.ts';
import { engineerAppendix } from '../../src/report/print/engineer-appendix.ts';
import { ownerReport } from '../../src/report/print/owner-report.ts';
import type { PrintSource } from '../../src/report/print/print-source.ts';
import { visitSheet } from '../../src/report/print/visit-sheet.ts';
import { assessmentText } from '../../src/report/tables/assessment-text.ts';
import { findingTable, lineTable, pointTable, tankTable } from '../../src/report/tables/plan-tables.ts';
import { animalChoices } from '../../src/report/words/animal-words.ts';
import { measureWords } from '../../src/report/words/measure-words.ts';
import { TERMS } from '../../src/report/words/terms.ts';
import { classTitle } from '../../src/report/words/terrain-note-words.ts';
import { accuracyClasses } from '../../src/terrain/accuracy/height-accuracy.ts';
import type { UnitSystem } from '../../src/units/kind.ts';
import { CASES, evaluated } from '../evaluation/finding-cases.ts';
import { workingPlan } from '../evaluation/made-plan.ts';
import { demoSource, wordsOf } from './print/print-made.ts';

const SYSTEMS = ['metric', 'us'] as const;

/** Pipe and fittings are sold by the sizes in their names, whatever units are read. */
const NAMES = [...pipeRows(), ...fittingRows()].map(({ label }) => label).toSorted((a, b) => b.length - a.length);
const nameless = (text: string): string =>
  NAMES.reduce(
    (left, name) => left.replaceAll(name, '').replaceAll(name.replace('Galvanised', 'Galvanized'), ''),
    text,
  );

/** What every finding says in a case that brings it up, and what is said of the plan around it. */
function saidOfCases(units: UnitSystem): readonly string[] {
  return Object.values(CASES).flatMap((byVerdict) =>
    Object.values(byVerdict).flatMap((made) => {
      const plan: Plan = { ...(made.plan ?? workingPlan), units };
      const evaluation = evaluated({ ...made, plan });
      const nameOf = (id: string) => id;
      return [
        ...evaluation.findings.flatMap((finding) => Object.values(findingWords(finding, { units, nameOf }))),
        ...evaluation.measureFirst.flatMap((item) => [
          ...Object.values(measureWords(item, plan, units)).filter((words) => words !== null),
          measureReason(item, evaluation, plan, units),
        ]),
        answerSentence(evaluation.answer, plan),
        arrivesSentence(evaluation.answer, plan),
        firstSentence(evaluation.answer, plan),
      ];
    }),
  );
}

/** Lists and tables of the page and the command line. */
function saidOfDemo(source: PrintSource, units: UnitSystem): readonly string[] {
  const plan = { ...source.plan, units };
  const evaluation = source.site?.evaluation ?? null;
  if (evaluation === null) throw new Error('the demo has no ground');
  const tables = [pointTable, lineTable, tankTable, findingTable].map((make) => make({ plan, evaluation, units }));
  return [
    ...tables.flatMap(({ title, columns, rows }) => [
      title,
      ...columns.map(({ name }) => name),
      // A finding's source is the title of a publication.
      ...rows.flatMap(({ cells }) => (title === 'Findings' ? cells.slice(0, -1) : cells)),
    ]),
    assessmentText(plan, evaluation, units),
    ...Object.values(TERMS).flatMap(({ plain, hint }) => [plain, hint]),
    ...GLOSSARY.flatMap(({ entries }) => entries.flatMap((entry) => [entry.term, meaningFor(entry, units)])),
    ...animalChoices(units).flatMap(({ choices }) => choices.map(({ words }) => words)),
    ...accuracyClasses.map(({ id }) => classTitle(id, units)),
  ];
}

/** Units of one system after a number. */
const METRIC = /\d[\u202f\u00a0 -]?(?:m|mm|cm|km|L|mL|m³|L\/min|L\/day|bar|kPa|m\/s|kg|g|°C)(?![\w/³’])/;
const US = /\d[\u202f\u00a0 -]?(?:ft|in(?! 10)|mil|gal|gal\/min|gal\/day|fl oz|psi|ft\/s|lb|oz|°F)(?![\w/])/;
const BRITISH =
  /\b(?:(?:centi|deci|milli|kilo)?metres?|litres?|colou?red|colours?|grey|mould\w*|neighbour\w*|galvanised|centres?|levelled|labelled|ploughs?|behaviour|favour\w*)\b/i;
const AMERICAN =
  /\b(?:(?:centi|deci|milli|kilo)?meters?|liters?|colors?|colored|gray|mold\w*|neighbor\w*|galvanized|centers?|leveled|labeled|plows?|behavior)\b/i;
/** Words that strangers tripped over; the plain one stands in the list of terms or in the sentence. */
const STUMBLED =
  /\bDEM\b(?! as GeoTIFF)|\breckoned\b|\bhangs? on\b|\bLevel that counts\b|\bGoverning lift\b|\btake back\b|\bset aside\b|\bstandard deviations?\b|\blacking\b/i;
/** The same as the words of a button. */
const BUTTONS = /\bLay it\b|\bLeave it\b(?! as)/;
/** More digits than anybody reads. */
const LONG = /\d\.\d{5,}|0\.0000\d/;
/** A path into a file, or a word of a parser. */
const PARSER = /features\[|properties\.|trkseg|\\u0000|\bundefined\b|\bNaN\b|\bnull\b|\[object/;

const offending = (texts: readonly string[], pattern: RegExp): readonly string[] => [
  ...new Set(texts.filter((text) => pattern.test(text))),
];

let demo: PrintSource;
beforeAll(async () => {
  demo = await demoSource();
});

describe.each(SYSTEMS)('everything that is said in %s units', (units) => {
  const said = (): readonly string[] => [...saidOfCases(units), ...saidOfDemo(demo, units)].map(nameless);
  const [foreign, misspelled] = units === 'us' ? [METRIC, BRITISH] : [US, AMERICAN];

  it('says something', () => {
    expect(said().length).toBeGreaterThan(1000);
    expect(said().some((text) => (units === 'us' ? US : METRIC).test(text))).toBe(true);
  });

  it('has no unit of the other system', () => {
    expect(offending(said(), foreign)).toEqual([]);
  });

  it('is spelled as its readers spell', () => {
    expect(offending(said(), misspelled)).toEqual([]);
    const own = [...demo.plan.points, ...demo.plan.routes]
      .flatMap(({ name, note }) => [name, note])
      .concat(demo.plan.name);
    for (const sheet of [ownerReport, engineerAppendix, visitSheet]) {
      const text = own.reduce(
        (left, name) => (name === '' ? left : left.replaceAll(name, '')),
        wordsOf(sheet({ ...demo, units })),
      );
      expect(text.match(misspelled)?.[0] ?? null).toBeNull();
    }
  });

  it('groups its thousands as its readers do, and writes no more digits than anybody reads', () => {
    const degrees = /^-?\d+\.\d{5,7}$/;
    expect(
      offending(
        said().filter((text) => !degrees.test(text)),
        LONG,
      ),
    ).toEqual([]);
    expect(offending(said(), units === 'us' ? /\d\u202f\d{3}/ : /\d,\d{3}\b/)).toEqual([]);
  });

  it('holds no word that strangers tripped over and none of a parser', () => {
    // The glossary is where a word of the trade is explained.
    const trade = new Set(
      GLOSSARY.flatMap(({ entries }) => entries.flatMap((entry) => [entry.term, meaningFor(entry, units)])),
    );
    expect(
      offending(
        said().filter((text) => !trade.has(text)),
        STUMBLED,
      ),
    ).toEqual([]);
    expect(offending(said(), BUTTONS)).toEqual([]);
    expect(offending(said(), PARSER)).toEqual([]);
  });
});

/** Every text that stands in a file of the page: of its elements, and of its attributes and strings. */
function textsOf(file: string): readonly string[] {
  const source = readFileSync(file, 'utf8');
  const texts: string[] = [];
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) for (const each of node) walk(each);
    else if (typeof node === 'object' && node !== null) {
      const { type, value } = node as { readonly type?: string; readonly value?: unknown };
      if (type === 'ImportDeclaration' || ((type === 'ExportNamedDeclaration') === false && type === 'TSLiteralType'))
        return;
      if ((type === 'JSXText' || type === 'Literal') && typeof value === 'string')
        texts.push(value.replace(/\s+/g, ' '));
      for (const each of Object.values(node)) walk(each);
    }
  };
  walk(parseSync(file, source).program);
  return texts;
}

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.tsx'))
    .map((entry) => `${entry.parentPath}/${entry.name}`);
}

describe('the labels of the page', () => {
  const labels = filesBelow('src/app/panels').flatMap((file) => textsOf(file).filter((text) => text.includes(' ')));

  it('are many', () => {
    expect(labels.length).toBeGreaterThan(300);
  });

  it('are written with words that are spelled alike on both sides of the sea', () => {
    expect(offending(labels, BRITISH)).toEqual([]);
    expect(offending(labels, AMERICAN)).toEqual([]);
  });

  it('hold no word that strangers tripped over', () => {
    expect(offending(labels, STUMBLED)).toEqual([]);
    expect(offending(labels, BUTTONS)).toEqual([]);
  });
});

describe('the list of terms', () => {
  it('gives no word to two things', () => {
    const words = Object.values(TERMS).map(({ plain }) => plain);
    expect(new Set(words).size).toBe(words.length);
  });

  it('names only words that the glossary explains', () => {
    const explained = new Set(GLOSSARY.flatMap(({ entries }) => entries.map(({ term }) => term)));
    const named = Object.values(TERMS).flatMap((term) => ('glossary' in term ? [term.glossary] : []));
    expect(named.filter((term) => !explained.has(term))).toEqual([]);
  });

  it('gives no two findings of different things the same heading', () => {
    const titles = Object.values(FINDING_TEXTS).map(({ title }) => title);
    const twice = titles.filter((title, at) => titles.indexOf(title) !== at);
    // Too short and too long are two sides of one thing.
    expect(twice.toSorted()).toEqual([
      'Length of the drive pipe for its bore',
      'Length of the drive pipe for this fall',
    ]);
  });
});
