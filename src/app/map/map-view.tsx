import './map-view.css';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { SLOPE_COVER, SLOPE_EDGES, SLOPE_PALETTES } from '../../relief/tiles/slope-palette.ts';
import type { MapTheme, MapViewProps } from '../state/map-view-props.ts';
import type { MapEngine } from './map-engine.ts';
import { ReachLegendFigure } from './reach-legend.tsx';
import type { ScaleReading } from './scale-bar.ts';

/** What a class of slope means for digging a pipe in. Common practice, no source. */
const WORK = ['level, not coloured', 'any machine', 'wheels with care', 'tracks with care', 'by hand'] as const;

const SWATCH = { width: 22, height: 13 };

/** What the slope colours mean, on the map itself. */
function SlopeLegend({ theme }: { readonly theme: MapTheme }) {
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
function slopeWords(at: number): string {
  const percent = (edge: number | undefined) => Math.round(100 * (edge ?? 0));
  const [from, to] = [SLOPE_EDGES[at - 1], SLOPE_EDGES[at]];
  if (from === undefined) return `under ${percent(to)} %`;
  return to === undefined ? `over ${percent(from)} %` : `${percent(from)} to ${percent(to)} %`;
}

type Loading = 'loading' | 'shown' | 'failed';

/** The map. Its library is loaded when it is first shown; it keeps no state of the plan. */
export function MapView(props: MapViewProps) {
  const frame = useRef<HTMLDivElement>(null);
  const engine = useRef<MapEngine | null>(null);
  const latest = useRef(props);
  const [loading, setLoading] = useState<Loading>('loading');
  const [scale, setScale] = useState<ScaleReading | null>(null);
  latest.current = props;

  useEffect(() => {
    let gone = false;
    const start = async () => {
      const { MapEngine } = await import('./map-engine.ts');
      if (gone || !frame.current) return;
      engine.current = new MapEngine(frame.current, latest.current, { onScale: setScale });
      setLoading('shown');
    };
    start().catch((error: unknown) => {
      console.error(error);
      if (!gone) setLoading('failed');
    });
    return () => {
      gone = true;
      engine.current?.destroy();
      engine.current = null;
    };
  }, []);

  // Before the next picture, so that a click or key right after a choice meets it.
  useLayoutEffect(() => {
    engine.current?.update(props);
  });

  return (
    <div class="map-view" data-tool={toolName(props)} data-theme={props.look.theme}>
      <div class="map-frame" ref={frame} data-map-idle="false" />
      <div class="map-cross" aria-hidden="true" />
      {loading === 'loading' && <p class="map-message">The map is being set up.</p>}
      {loading === 'failed' && (
        <p class="map-message" role="alert">
          This browser cannot draw the map: it offers no WebGL. Points and routes can still be entered as numbers.
        </p>
      )}
      <PointerNote text={props.pointerNote} />
      <div class="map-corner">
        {props.readout?.map((line) => (
          <p key={line} class="map-readout">
            {line}
          </p>
        ))}
        {props.look.slopes && props.terrain && <SlopeLegend theme={props.look.theme} />}
        {props.reachLegend && <ReachLegendFigure legend={props.reachLegend} theme={props.look.theme} />}
        {props.webTilesNote?.failure && <p class="map-unseen">{props.webTilesNote.failure}</p>}
        {scale?.unseen && <p class="map-unseen">{scale.unseen}</p>}
        {scale && (
          <p class="map-scale">
            <span class="map-scale-bar" style={{ width: `${scale.pixels}px` }} aria-hidden="true" />
            <span>{scale.label}</span>
            {scale.contours && <span class="map-contours">{scale.contours}</span>}
          </p>
        )}
        {props.webTilesNote && <p class="map-attribution">{props.webTilesNote.attribution}</p>}
      </div>
    </div>
  );
}

function toolName({ tool }: MapViewProps): 'select' | 'place' | 'draw' {
  if (tool === 'select') return 'select';
  return 'draw' in tool ? 'draw' : 'place';
}

/** A note that goes with the pointer. */
function PointerNote({ text }: { readonly text: string | null }) {
  const note = useRef<HTMLOutputElement>(null);
  useEffect(() => {
    const follow = (event: PointerEvent) => {
      const box = note.current?.offsetParent?.getBoundingClientRect();
      if (!note.current || !box) return;
      const left = Math.min(event.clientX - box.left + 18, box.width - note.current.offsetWidth - 8);
      const top = Math.min(event.clientY - box.top + 18, box.height - note.current.offsetHeight - 8);
      note.current.style.transform = `translate(${Math.max(8, left)}px, ${Math.max(8, top)}px)`;
    };
    window.addEventListener('pointermove', follow);
    return () => window.removeEventListener('pointermove', follow);
  }, []);
  return (
    <output class="map-note" ref={note} hidden={text === null}>
      {text}
    </output>
  );
}
