import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cleanName } from '../../../src/plan/exchange/clean-text.ts';
import { readImport } from '../../../src/plan/exchange/read-import.ts';
import { readXml, type XmlElement } from '../../../src/plan/exchange/xml-tree.ts';
import { startingPoint } from '../../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { gpxOfPlan } from '../../../src/report/exchange/gpx-of-plan.ts';
import { visibleText } from '../../../src/units/visible-text.ts';
import { samplePlan } from '../../plan/sample-plan.ts';

function readBack(plan: Plan) {
  const read = readImport({ name: 'plan.gpx', bytes: new TextEncoder().encode(gpxOfPlan(plan)) });
  if (!read.ok) throw new Error(`our own GPX was refused: ${JSON.stringify(read.problems)}`);
  return read.value;
}

/** Sequences of GPX 1.1 Schema Documentation, TopoGrafix, 2004: gpxType, metadataType, wptType and rteType. */
const WPT = [
  ...['ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link', 'sym', 'type', 'fix', 'sat'],
  ...['hdop', 'vdop', 'pdop', 'ageofdgpsdata', 'dgpsid', 'extensions'],
];
const SEQUENCES: Readonly<Record<string, readonly string[]>> = {
  gpx: ['metadata', 'wpt', 'rte', 'trk', 'extensions'],
  metadata: ['name', 'desc', 'author', 'copyright', 'link', 'time', 'keywords', 'bounds', 'extensions'],
  wpt: WPT,
  rtept: WPT,
  rte: ['name', 'cmt', 'desc', 'src', 'link', 'number', 'type', 'extensions', 'rtept'],
};

/** Children that stand where the schema does not have them, and attributes that it does not allow. */
function outOfOrder(element: XmlElement): readonly string[] {
  const sequence = SEQUENCES[element.name] ?? [];
  const ranks = element.children.map(({ name }) => sequence.indexOf(name));
  const wrong = ranks.some((rank, k) => rank < 0 || rank < (ranks[k - 1] ?? 0));
  const place = ['wpt', 'rtept'].includes(element.name) ? [...element.attributes] : [];
  // xsd:decimal has no exponent; latitudeType and longitudeType have their bounds, the latter without 180.
  const bad = place.filter(([name, value]) => {
    const most = name === 'lat' ? 90 : 180;
    return !/^-?\d+(?:\.\d+)?$/.test(value) || Math.abs(Number(value)) > most || value === '180';
  });
  return [...(wrong ? [element.name] : []), ...bad.map(String), ...element.children.flatMap(outOfOrder)];
}

/** Numbers in any place of a double, not only round ones: ends, nought and numbers written with an exponent among them. */
const degrees = (most: number) =>
  fc.oneof(fc.double({ min: -most, max: most, noNaN: true }), fc.constantFrom(0, -0, 1e-9, -3e-7, most, -most));
const place = fc.record({
  lon: degrees(180),
  lat: degrees(90),
  name: fc.string({ unit: 'binary', maxLength: 60 }),
  note: fc.string({ unit: 'grapheme', maxLength: 60 }),
});
const plans = fc.array(place, { minLength: 1, maxLength: 12 }).map((places): Plan => {
  const points = places.map(({ lon, lat, name, note }, k) => {
    return { ...startingPoint('tank', `tank-${k + 1}`, name, { lon, lat }), note };
  });
  return { ...samplePlan, points, routes: [] };
});

/** Degrees between two longitudes, 180 and −180 being one. */
function apart(a: number, b: number): number {
  const around = Math.abs(a - b) % 360;
  return Math.min(around, 360 - around);
}

describe('a plan as GPX', () => {
  it('has the order of elements and the numbers that the schema asks for', () => {
    expect(outOfOrder(readXml(gpxOfPlan(samplePlan)))).toEqual([]);
    fc.assert(
      fc.property(plans, (plan) => {
        expect(outOfOrder(readXml(gpxOfPlan(plan)))).toEqual([]);
      }),
    );
  });

  it('gives another reader of GPX the same points and routes', () => {
    const document = new DOMParser().parseFromString(gpxOfPlan(samplePlan), 'text/xml');
    const { features } = gpx(document as unknown as Document);
    const theirs = features.map(({ geometry, properties }) => [
      properties?.name,
      properties?.type,
      properties?.desc ?? '',
      geometry !== null && 'coordinates' in geometry ? geometry.coordinates : null,
    ]);
    const points = samplePlan.points.map(({ name, role, note, position }) => [
      name,
      role,
      note,
      [position.lon, position.lat],
    ]);
    const routes = samplePlan.routes.map(({ name, role, note, vertices }) => [
      name,
      role,
      note,
      vertices.map(({ lon, lat }) => [lon, lat]),
    ]);
    const byName = (rows: readonly unknown[][]) => [...rows].sort((a, b) => String(a[0]).localeCompare(String(b[0])));
    expect(byName(theirs)).toEqual(byName([...points, ...routes]));
  });

  it('holds no height, so that none of the plan is taken for a receiver’s', () => {
    expect(gpxOfPlan(samplePlan)).not.toContain('<ele>');
    expect(readBack(samplePlan).items.every(({ heights }) => heights === null)).toBe(true);
  });

  it('imported again, gives each point its name, its role and its place to 1e-7°', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        // Hidden signs are written as what they are; the tests of visible text hold that.
        fc.pre(plan.points.every(({ name }) => [...name].every((sign) => sign < ' ' || visibleText(sign) === sign)));
        const { items } = readBack(plan);
        expect(items.map(({ name }) => name)).toEqual(plan.points.map(({ name }) => cleanName(name)));
        plan.points.forEach(({ position }, k) => {
          const there = items[k]?.positions[0] ?? { lon: Number.NaN, lat: Number.NaN };
          expect(apart(there.lon, position.lon)).toBeLessThanOrEqual(1e-7);
          expect(Math.abs(there.lat - position.lat)).toBeLessThanOrEqual(1e-7);
          expect(items[k]?.suggested).toBe('tank');
        });
      }),
    );
  });

  it('imported again, gives names of the trade as they are, and every route', () => {
    const { items } = readBack(samplePlan);
    expect(items.map(({ name, suggested }) => [name, suggested])).toEqual(
      [...samplePlan.points, ...samplePlan.routes].map(({ name, role }) => [name, role]),
    );
    expect(items.slice(samplePlan.points.length).map(({ positions }) => positions)).toEqual(
      samplePlan.routes.map(({ vertices }) => vertices),
    );
  });
});
