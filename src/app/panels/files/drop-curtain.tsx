import { useEffect, useState } from 'preact/hooks';
import { lookAtImport } from '../../actions/import-actions.ts';
import { openPictureFiles, openTerrainFiles } from '../../actions/terrain-actions.ts';
import { isBundle, openBundle } from '../../files/field-actions.ts';
import { openPlanFromDisk } from '../../files/saving-actions.ts';
import { askThen } from '../fields/ask-then.ts';

const PLAN = /\.(geojson|json)$/i;
const TRACKS = /\.(gpx|kml|csv|tsv)$/i;
const PLAIN_PICTURE = /\.(jpe?g|png|jgw|jpgw|jpegw|pgw|pngw|tfw|tifw|tiffw|wld)$/i;
/** Lies beside pictures and beside elevation, which does not need it. */
const COMPANION = /\.(prj|aux\.xml)$/i;

/** Takes files that are dropped anywhere; while they hover, says where they would go. */
export function DropCurtain() {
  const [hovering, setHovering] = useState(false);
  useEffect(() => {
    const over = (event: DragEvent) => {
      if (event.dataTransfer?.types.includes('Files') !== true) return;
      event.preventDefault();
      setHovering(true);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) setHovering(false);
    };
    const drop = (event: DragEvent) => {
      event.preventDefault();
      setHovering(false);
      void take([...(event.dataTransfer?.files ?? [])], targetOf(event));
    };
    addEventListener('dragover', over);
    addEventListener('dragleave', leave);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragover', over);
      removeEventListener('dragleave', leave);
      removeEventListener('drop', drop);
    };
  }, []);
  if (!hovering) return null;
  return (
    <div class="drop-curtain">
      <div data-drop="elevation">
        <p>Drop here: heights of the ground, or a plan</p>
      </div>
      <div data-drop="picture">
        <p>Drop here: an aerial picture</p>
      </div>
    </div>
  );
}

type Target = 'elevation' | 'picture';

function targetOf(event: DragEvent): Target {
  const zone = event.target instanceof Element ? event.target.closest('[data-drop]') : null;
  return zone?.getAttribute('data-drop') === 'picture' ? 'picture' : 'elevation';
}

async function take(files: readonly File[], target: Target): Promise<void> {
  const [only] = files;
  if (only !== undefined && files.length === 1 && (await isBundle(only))) {
    await askThen(() => void openBundle(only));
    return;
  }
  const plans = files.filter((file) => PLAN.test(file.name));
  const pictures = files.filter((file) => PLAIN_PICTURE.test(file.name));
  const tracks = files.filter((file) => TRACKS.test(file.name));
  const companions = files.filter((file) => COMPANION.test(file.name));
  const rest = files.filter((file) => ![...plans, ...pictures, ...tracks, ...companions].includes(file));
  const [track] = tracks;
  if (track !== undefined) void lookAtImport(track);
  const [plan] = plans;
  if (plan !== undefined) void askThen(() => void openPlanFromDisk(plan));
  const asPicture = pictures.length > 0 || target === 'picture' || rest.length === 0;
  const asked = [...pictures, ...rest, ...companions];
  if (asPicture && asked.length > 0) void openPictureFiles(asked);
  else if (rest.length > 0) void openTerrainFiles([...rest, ...companions]);
}
