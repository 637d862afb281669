import type { FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { FindingText } from './finding-text.ts';
import { BUILD_TEXTS } from './finding-texts-build.ts';
import { DELIVERY_TEXTS } from './finding-texts-delivery.ts';
import { DRIVE_TEXTS } from './finding-texts-drive.ts';
import { NEED_TEXTS } from './finding-texts-need.ts';
import { SOURCE_TEXTS } from './finding-texts-source.ts';

/** How every finding of the catalogue is told. */
export const FINDING_TEXTS: Readonly<Record<FindingCode, FindingText>> = {
  ...SOURCE_TEXTS,
  ...DRIVE_TEXTS,
  ...DELIVERY_TEXTS,
  ...NEED_TEXTS,
  ...BUILD_TEXTS,
};
