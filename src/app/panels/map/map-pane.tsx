import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { MapViewProps } from '../../state/map-view-props.ts';
import { useMenu } from '../fields/use-menu.ts';
import type { PageWidth } from '../fields/use-width.ts';
import { FileStates } from '../files/file-states.tsx';
import { DeviceSpot } from './device-spot.tsx';
import { useMapProps } from './map-props.ts';
import { MapStrip } from './map-strip.tsx';
import { ToolHint } from './tool-hint.tsx';

/** The map with its strip of files and looks, and what is going on with the files. */
export function MapPane({ width }: { readonly width: PageWidth }) {
  return (
    <section class="map-pane" aria-label="Map">
      {width === 'narrow' ? <StripMenu /> : <MapStrip />}
      <div class="map-place">
        <LazyMap />
        <DeviceSpot />
        <ToolHint />
        <FileStates />
      </div>
    </section>
  );
}

function StripMenu() {
  return (
    <details class="more strip" ref={useMenu()}>
      <summary>Map and files</summary>
      <div class="more-body">
        <MapStrip />
      </div>
    </details>
  );
}

type MapState = { readonly view: ComponentType<MapViewProps> } | { readonly failed: string } | null;

/** The map is a large part of the program and comes after the rest of the page. */
function LazyMap() {
  const [state, setState] = useState<MapState>(null);
  const props = useMapProps();
  useEffect(() => {
    let wanted = true;
    import('../../map/map-view.tsx').then(
      ({ MapView }) => wanted && setState({ view: MapView }),
      (error: unknown) => wanted && setState({ failed: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      wanted = false;
    };
  }, []);
  if (state === null) return <p class="map-wait">The map is being loaded…</p>;
  if ('failed' in state) {
    return (
      <p class="map-wait" role="alert">
        The map could not be loaded ({state.failed}). Load the page again; everything else works without it.
      </p>
    );
  }
  return <state.view {...props} />;
}
