import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import type { NewFact } from '../../phone/facts.ts';
import { phone } from '../../phone/store.ts';
import type { MemoTaken } from './record-memo.ts';
import type { ScaledPicture } from './scaled-picture.ts';

/**
 * Puts a picture or memo on the phone's disk and returns its record, by which it is found again by plant, trait and
 * day. Throws where the disk does not take it.
 */
export async function mediaFact(
  taken: ScaledPicture | MemoTaken,
  plant: HeldPlant,
  trait: TraitShown,
  on: string,
): Promise<NewFact & { readonly hash: string }> {
  const isPicture = 'width' in taken;
  const words = `${plant.code} ${trait.name}: ${isPicture ? 'picture' : 'memo'}`;
  const { hash } = await phone.keepPhoto(taken.bytes, { mediaType: taken.mediaType, words });
  return {
    kind: 'photos',
    hash,
    row: {
      hash,
      plant: plant.id,
      trait: trait.id,
      taken_on: on,
      media_type: taken.mediaType,
      bytes: taken.bytes.byteLength,
      ...(isPicture ? { width_px: taken.width, height_px: taken.height } : {}),
    },
    words,
  };
}
