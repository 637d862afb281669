import { toBitmap } from './bitmap.ts';
import { decodeJpeg } from './decode-jpeg.ts';
import { decodePicture } from './decode-picture.ts';
import { pictureService } from './picture-service.ts';
import { type PageEnd, serve } from './serve.ts';
import { terrainService } from './terrain-service.ts';

declare const self: PageEnd;

serve(self, { ...terrainService(toBitmap), ...pictureService(toBitmap, { jpeg: decodeJpeg, whole: decodePicture }) });
