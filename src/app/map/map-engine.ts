import 'maplibre-gl/dist/maplibre-gl.css';
import type { FeatureCollection } from 'geojson';
import { type GeoJSONSource, Map as MapLibreMap, setWorkerUrl } from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import type { ContourTile } from '../client/tile-service.ts';
import type { MapViewProps } from '../state/map-view-props.ts';
import { DrawRoute } from './draw-route.ts';
import { changedFeatures, DRAWN_SOURCES, type DrawnInputs, type DrawnSource } from './drawn-sources.ts';
import { fitToOpened } from './map-fit.ts';
import { setMapImages } from './map-images.ts';
import { MapKeys } from './map-keys.ts';
import { MapPointer } from './map-pointer.ts';
import { mapStyle } from './map-style.ts';
import { withPencil } from './route-pencil.ts';
import { type ScaleReading, sameScale, scaleReading } from './scale-bar.ts';
import { TileProtocol } from './tile-protocol.ts';

setWorkerUrl(workerUrl);

export interface MapOutputs {
  /** The scale or the step between contours changed. */
  readonly onScale: (reading: ScaleReading) => void;
}

/** The map itself: follows the props, hands the user's doings to the props' callbacks. */
export class MapEngine {
  readonly map: MapLibreMap;
  readonly #container: HTMLElement;
  readonly #outputs: MapOutputs;
  readonly #protocol: TileProtocol;
  readonly #pointer: MapPointer;
  readonly #keys: MapKeys;
  readonly #draw: DrawRoute;
  readonly #contours = new Map<number, Omit<ContourTile, 'data'>>();
  readonly #sources;
  #props: MapViewProps;
  /** What the drawn sources hold, and what it was made from. */
  readonly #drawn = emptyDrawing();
  #drawnFrom: DrawnInputs | null = null;
  #scale: ScaleReading | null = null;
  #styled = false;
  /** The props that the view was last fitted to. */
  #fitted: MapViewProps | null = null;

  constructor(container: HTMLElement, props: MapViewProps, outputs: MapOutputs) {
    this.#container = container;
    this.#outputs = outputs;
    this.#props = props;
    this.#sources = {
      relief: props.reliefTiles,
      picture: props.pictureTiles,
      web: props.webTiles,
      reach: props.reachTiles,
      onContours: (zoom: number, contours: Omit<ContourTile, 'data'>) => this.#noteContours(zoom, contours),
    };
    this.#protocol = new TileProtocol(this.#sources);
    this.map = createMap(container, this.#style());
    const current = () => this.#props;
    this.#draw = new DrawRoute(this.map, current, () => this.#redraw());
    this.#pointer = new MapPointer(this.map, current);
    this.#keys = new MapKeys(this.map, current, { draw: this.#draw, cancelDrag: () => this.#pointer.cancelDrag() });
    this.map.once('style.load', () => this.#start());
    this.map.on('move', () => this.#tellView());
    this.map.on('idle', () => this.#setIdle(true));
    this.map.on('dataloading', () => this.#setIdle(false));
    this.map.on('resize', () => this.#tellView());
    this.map.on('error', ({ error }) => reportUnlessOutdated(error));
    this.#fit();
    this.#tellView();
  }

  update(props: MapViewProps): void {
    const before = this.#props;
    this.#props = props;
    this.#sources.relief = props.reliefTiles;
    this.#sources.picture = props.pictureTiles;
    this.#sources.web = props.webTiles;
    this.#sources.reach = props.reachTiles;
    if (before.reliefTiles !== props.reliefTiles) this.#contours.clear();
    this.#fit();
    this.#showDevice(before.device);
    this.#showSpot(before.spot);
    if (!this.#styled) return;
    if (before.look.theme !== props.look.theme) setMapImages(this.map, props.look.theme);
    this.#redraw();
    if (groundChanged(before, props)) this.#restyle();
    this.#draw.follow(props);
    this.#pointer.follow(props);
    this.#tellView();
  }

  destroy(): void {
    this.#draw.close();
    this.#keys.close();
    this.#pointer.close();
    this.map.remove();
    this.#protocol.close();
  }

  #start(): void {
    this.#styled = true;
    setMapImages(this.map, this.#props.look.theme);
    this.#redraw();
    this.#restyle();
    this.#draw.follow(this.#props);
    this.#pointer.follow(this.#props);
  }

  #fit(): void {
    fitToOpened(this.map, this.#fitted, this.#props);
    this.#fitted = this.#props;
  }

  /** Goes where the device is when it is first found; afterwards the map stays where the user has it. */
  #showDevice(before: MapViewProps['device']): void {
    const { device } = this.#props;
    if (before || !device) return;
    const { lon, lat } = device.position;
    if (!this.map.getBounds().contains([lon, lat])) this.map.jumpTo({ center: [lon, lat] });
  }

  /** Brings a place that was asked for into sight, clear of the map's edge; the map stays where it is in sight. */
  #showSpot(before: MapViewProps['spot']): void {
    const { spot } = this.#props;
    if (!spot || spot === before) return;
    const { lon, lat } = spot.position;
    const { x, y } = this.map.project([lon, lat]);
    const { clientWidth: width, clientHeight: height } = this.#container;
    const edge = Math.min(SPOT_EDGE, width / 4, height / 4);
    const inSight = x > edge && y > edge && x < width - edge && y < height - edge;
    if (!inSight) this.map.easeTo({ center: [lon, lat], duration: calm() ? 0 : 400 });
  }

  /** Changes what differs; what a pencil has added to the map stays. */
  #restyle(): void {
    this.map.setStyle(this.#style(), { diff: true, validate: false, transformStyle: withPencil });
    this.#awaitIdle();
  }

  #style() {
    const { look, terrain, picture, reliefTiles, pictureTiles, webTiles, reachTiles } = this.#props;
    const pixelRatio = window.devicePixelRatio > 1 ? 2 : 1;
    const [protocol, drawn] = [this.#protocol, this.#drawn];
    return mapStyle({
      look,
      terrain,
      picture,
      reliefTiles,
      pictureTiles,
      webTiles,
      reachTiles,
      drawn,
      protocol,
      pixelRatio,
    });
  }

  /** Hands over what changed of the drawn things. */
  #redraw(): void {
    const inputs = { ...this.#props, ...this.#draw.phase };
    for (const name of DRAWN_SOURCES) {
      const data = changedFeatures(name, this.#drawnFrom, inputs);
      if (!data) continue;
      this.#drawn[name] = data;
      this.map.getSource<GeoJSONSource>(name)?.setData(data);
      this.#awaitIdle();
    }
    this.#drawnFrom = inputs;
  }

  /** Not idle from now until the map says so, which it does after the next frame at the earliest. */
  #awaitIdle(): void {
    this.#setIdle(false);
    this.map.triggerRepaint();
  }

  #noteContours(zoom: number, contours: Omit<ContourTile, 'data'>): void {
    const before = this.#contours.get(zoom);
    if (before?.interval === contours.interval && before.tooFar === contours.tooFar) return;
    this.#contours.set(zoom, contours);
    this.#tellView();
  }

  #tellView(): void {
    const { lng, lat } = this.map.getCenter();
    const { clientWidth: width, clientHeight: height } = this.#container;
    const view = { center: [lng, lat], zoom: this.map.getZoom(), bearing: this.map.getBearing(), width, height };
    this.#container.dataset.view = JSON.stringify(view);
    const scale = scaleReading(this.map, this.#props, this.#contours);
    if (sameScale(this.#scale, scale)) return;
    this.#scale = scale;
    this.#outputs.onScale(scale);
  }

  #setIdle(idle: boolean): void {
    this.#container.dataset.mapIdle = String(idle && this.#styled);
  }
}

/** A place nearer to the edge of the map than this, CSS pixels, is brought towards its middle. */
const SPOT_EDGE = 60;

const calm = (): boolean => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

function createMap(container: HTMLElement, style: ReturnType<typeof mapStyle>): MapLibreMap {
  const map = new MapLibreMap({
    container,
    style,
    attributionControl: false,
    dragRotate: false,
    pitchWithRotate: false,
    touchPitch: false,
    renderWorldCopies: false,
    maxZoom: 22,
    fadeDuration: calm() ? 0 : 150,
    validateStyle: false,
    canvasContextAttributes: { antialias: false },
    locale: { 'Map.Title': 'Map of the plan' },
  });
  map.touchZoomRotate.disableRotation();
  map.keyboard.disableRotation();
  return map;
}

/** Tiles of a map that has moved on, or of a file that was closed, are nobody's concern; a refused web tile is told elsewhere. */
function reportUnlessOutdated(error: unknown): void {
  const name = error instanceof Error ? error.name : '';
  if (name !== 'AbortError' && name !== 'WorkerLost' && name !== 'TileRefused') console.error(error);
}

function groundChanged(before: MapViewProps, after: MapViewProps): boolean {
  return (
    before.look !== after.look ||
    before.terrain !== after.terrain ||
    before.picture !== after.picture ||
    before.reliefTiles !== after.reliefTiles ||
    before.pictureTiles !== after.pictureTiles ||
    before.webTiles !== after.webTiles ||
    before.reachTiles !== after.reachTiles
  );
}

const NOTHING: FeatureCollection = { type: 'FeatureCollection', features: [] };

function emptyDrawing(): Record<DrawnSource, FeatureCollection> {
  return Object.fromEntries(DRAWN_SOURCES.map((name) => [name, NOTHING])) as Record<DrawnSource, FeatureCollection>;
}
