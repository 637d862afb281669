import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';

/** What is known of an opened aerial picture without reading its pixels. */
export interface PictureAbout {
  readonly file: string;
  readonly crs: string;
  readonly size: { readonly columns: number; readonly rows: number };
  /** Width and height of a pixel on the ground near the middle, m. */
  readonly pixel: { readonly width: Metres; readonly height: Metres };
  /** Corners of the area it covers, in order around it. */
  readonly outline: readonly Position[];
  /** Ground under a pixel of the screen from which on the picture is not drawn, m; null where it always is. */
  readonly farthest: Metres | null;
}
