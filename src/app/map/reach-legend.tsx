import type { ReachLegend } from '../../report/words/reach-words.ts';
import { REACH_COVER, REACH_PALETTES } from '../../siting/reach/reach-tile.ts';
import type { MapTheme } from '../state/map-view-props.ts';

const SWATCH = { width: 22, height: 13 };

/** What the colours, patterns and lines of the reach map mean, on the map itself. */
export function ReachLegendFigure({ legend, theme }: { readonly legend: ReachLegend; readonly theme: MapTheme }) {
  return (
    <figure class="map-slopes map-reach">
      <details open={window.matchMedia('(min-width: 60em)').matches}>
        <summary>{legend.title}</summary>
        <ul>
          {legend.classes.map((words, at) => (
            <li key={words}>
              <Swatch>
                <rect
                  {...SWATCH}
                  fill={`rgb(${(REACH_PALETTES[theme][at] ?? [0, 0, 0]).join(' ')})`}
                  fill-opacity={REACH_COVER}
                />
              </Swatch>
              <span>{words}</span>
            </li>
          ))}
          {legend.patterns.map(({ kind, words }) => (
            <li key={kind}>
              <Swatch>{kind === 'sags' ? <Dots /> : <Strokes />}</Swatch>
              <span>{words}</span>
            </li>
          ))}
          {legend.lines.map(({ kind, words }) => (
            <li key={kind}>
              <Swatch>
                <path class="map-reach-line" d="M1 6.5h20" stroke-dasharray={kind === 'may' ? '4 3' : undefined} />
              </Swatch>
              <span>{words}</span>
            </li>
          ))}
        </ul>
        {legend.note === null ? null : <p class="map-soft">{legend.note}</p>}
      </details>
    </figure>
  );
}

function Swatch({ children }: { readonly children: preact.ComponentChildren }) {
  return (
    <svg {...SWATCH} viewBox={`0 0 ${SWATCH.width} ${SWATCH.height}`} preserveAspectRatio="none" aria-hidden="true">
      <rect class="map-swatch-paper" {...SWATCH} />
      {children}
      <rect class="map-swatch-edge" x="0.5" y="0.5" width={SWATCH.width - 1} height={SWATCH.height - 1} />
    </svg>
  );
}

function Dots() {
  return (
    <g class="map-reach-ink">
      {[4, 11, 18].map((x) => (
        <rect key={x} x={x} y="5" width="2" height="2" />
      ))}
    </g>
  );
}

function Strokes() {
  return <path class="map-reach-line" d="M2 12 12 2M10 12 20 2" />;
}
