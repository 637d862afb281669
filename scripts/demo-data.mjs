// Makes the demo valley: npm run demo-data
import { mkdirSync, writeFileSync } from 'node:fs';
import { elevationFile, quantised } from './demo-data/elevation-file.mjs';
import { valleyGround } from './demo-data/ground.mjs';
import { valleyPicture } from './demo-data/painting.mjs';
import { pictureFile } from './demo-data/picture-file.mjs';
import { planText } from './demo-data/plan-file.mjs';

const folder = new URL('../data/demo/', import.meta.url);

function put(name, content) {
  writeFileSync(new URL(name, folder), content);
  console.log(`data/demo/${name}: ${(content.length / 1e6).toFixed(2)} MB`);
}

mkdirSync(folder, { recursive: true });
const heights = quantised(valleyGround());
put('dem.tif', elevationFile(heights));
put('picture.tif', pictureFile(valleyPicture(heights)));
put('plan.geojson', await planText());
