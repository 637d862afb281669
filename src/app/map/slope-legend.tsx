import { SLOPE_COVER, SLOPE_EDGES, SLOPE_PALETTES } from '../../relief/slope-palette.ts';
import type { MapTheme } from '../state/map-view-props.ts';

/** What a class of slope means for digging a pipe in. Common practice, no source. */
const WORK = ['level, not coloured', 'any machine', 'wheels with care', 'tracks with care', 'by hand'] as const;

const SWATCH = { width: 22, height: 13 };

/** What the slope colours mean, on the map itself. */
export function SlopeLegend({ theme }: { readonly theme: MapTheme }) {
  return (
    <figure class="map-slopes">
      <figcaption>
        Slope<span class="map-work">, and what digs there (rule of thumb)</span>
      </figcaption>
      <ul>
        {WORK.map((work, at) => (
          <li key={work}>
            <Swatch theme={theme} at={at} />
            <span>{slopeWords(at)}</span>
            <span class="map-soft map-work">{work}</span>
          </li>
        ))}
      </ul>
    </figure>
  );
}

/** A class as the map shows it: its colour as thin over the paper as over the ground. */
function Swatch({ theme, at }: { readonly theme: MapTheme; readonly at: number }) {
  const colour = SLOPE_PALETTES[theme][at];
  return (
    <svg {...SWATCH} viewBox={`0 0 ${SWATCH.width} ${SWATCH.height}`} preserveAspectRatio="none" aria-hidden="true">
      <rect class="map-swatch-paper" {...SWATCH} />
      {colour ? <rect {...SWATCH} fill={`rgb(${colour.join(' ')})`} fill-opacity={SLOPE_COVER} /> : null}
      <rect class="map-swatch-edge" x="0.5" y="0.5" width={SWATCH.width - 1} height={SWATCH.height - 1} />
    </svg>
  );
}

/** The limits of a class in per cent, such as `5 to 15 %`. */
export function slopeWords(at: number): string {
  const percent = (edge: number | undefined) => Math.round(100 * (edge ?? 0));
  const [from, to] = [SLOPE_EDGES[at - 1], SLOPE_EDGES[at]];
  if (from === undefined) return `under ${percent(to)} %`;
  return to === undefined ? `over ${percent(from)} %` : `${percent(from)} to ${percent(to)} %`;
}
