import { useId } from 'preact/hooks';
import { openPictureFiles, openTerrainFiles } from '../../actions/terrain-actions.ts';
import { setHillshade, setPictureStrength, showContours, showSlopes } from '../../actions/view-actions.ts';
import { contours, hillshade, picture, pictureStrength, slopes, terrain } from '../../state/store.ts';
import { shownAddress } from '../../state/tiles-state.ts';
import { FileButton } from '../fields/file-button.tsx';
import { TilesSwitch } from '../inputs/tiles-inputs.tsx';

const TERRAIN_FILES = '.tif,.tiff,.asc';
const PICTURE_FILES = '.tif,.tiff,.jpg,.jpeg,.png,.jgw,.jpgw,.pgw,.pngw,.tfw,.wld,.prj,.xml';

/** Which files the map is made of and how strongly each is seen. */
export function MapStrip() {
  const about = terrain.value?.about;
  return (
    <div class="map-strip" role="toolbar" aria-label="Map">
      <FileButton accept={TERRAIN_FILES} multiple onFiles={(files) => void openTerrainFiles(files)}>
        {about === undefined ? 'Open elevation…' : 'Other elevation…'}
      </FileButton>
      <FileButton accept={PICTURE_FILES} multiple onFiles={(files) => void openPictureFiles(files)}>
        {picture.value === null ? 'Open picture…' : 'Other picture…'}
      </FileButton>
      {about === undefined ? null : (
        <>
          <Slider label="Hillshade" value={hillshade.value} onValue={setHillshade} />
          <label class="check">
            <input
              type="checkbox"
              checked={contours.value}
              onChange={(event) => showContours(event.currentTarget.checked)}
            />
            Contours
          </label>
          <label class="check">
            <input
              type="checkbox"
              checked={slopes.value}
              onChange={(event) => showSlopes(event.currentTarget.checked)}
            />
            Show slopes
          </label>
        </>
      )}
      <TilesSwitch />
      {picture.value === null && shownAddress.value === null ? null : (
        <Slider label="Picture" value={pictureStrength.value} onValue={setPictureStrength} />
      )}
    </div>
  );
}

function Slider({
  label,
  value,
  onValue,
}: {
  readonly label: string;
  readonly value: number;
  readonly onValue: (value: number) => void;
}) {
  const id = useId();
  return (
    <span class="slider">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="range"
        min="0"
        max="1"
        step="0.05"
        value={value}
        aria-valuetext={`${Math.round(value * 100)} %`}
        onInput={(event) => onValue(event.currentTarget.valueAsNumber)}
      />
    </span>
  );
}
