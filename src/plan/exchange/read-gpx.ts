import { shownText } from './clean-text.ts';
import type { ItemBook } from './import-items.ts';
import { importFault } from './import-preview.ts';
import type { GivenPlace } from './read-place.ts';
import { childrenOf, childText, type XmlElement } from './xml-tree.ts';

/** 1.0 has the same waypoints, routes and tracks; some programs write no namespace at all. */
const SPACES: ReadonlySet<string> = new Set([
  'http://www.topografix.com/GPX/1/1',
  'http://www.topografix.com/GPX/1/0',
  '',
]);

/**
 * Waypoints, routes and tracks of a GPX file; each segment of a track is a line of its own.
 * Source: GPX 1.1 Schema Documentation, TopoGrafix, 2004.
 */
export function readGpx(root: XmlElement, book: ItemBook): void {
  if (!SPACES.has(root.space)) {
    importFault('unknown-version', `line ${root.line}`, shownText(root.space), 'the namespace of GPX 1.1 or 1.0');
  }
  for (const child of root.children) {
    if (child.space !== root.space) continue;
    if (child.name === 'wpt') book.point({ ...aboutOf(child), places: [placeOf(child)] });
    if (child.name === 'rte') book.line({ ...aboutOf(child), places: childrenOf(child, 'rtept').map(placeOf) });
    if (child.name === 'trk') readTrack(child, book);
  }
}

function readTrack(track: XmlElement, book: ItemBook): void {
  const about = aboutOf(track);
  childrenOf(track, 'trkseg').forEach((segment, index) => {
    const name = index === 0 || about.name === '' ? about.name : `${about.name} (${index + 1})`;
    const path = `line ${segment.line}, trkseg`;
    book.line({ ...about, name, path, places: childrenOf(segment, 'trkpt').map(placeOf) });
  });
}

function aboutOf(element: XmlElement) {
  return {
    name: childText(element, 'name'),
    note: childText(element, 'desc') || childText(element, 'cmt'),
    type: childText(element, 'type'),
    path: `line ${element.line}, ${element.name}`,
  };
}

function placeOf(element: XmlElement): GivenPlace {
  const height = childText(element, 'ele');
  return { lon: element.attributes.get('lon'), lat: element.attributes.get('lat'), height };
}
