export type { PictureShown } from '@keelrow/records';

import type { PictureShown } from '@keelrow/records';

/** GET /api/pictures?genet=&search=&trait=&from=&to=&offset=&limit= — latest first; GET /api/photos/:hash is the original. */
export interface Pictures {
  readonly total: number;
  readonly pictures: readonly PictureShown[];
}
