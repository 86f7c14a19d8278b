import type { HeldPhoto, OlderCopy, Proof, ProofPlace, SameBy } from '$lib/generated/commands';
import { formatMoment, t, type PlainKey } from '$lib/messages';
import { sizeWords, why } from '../backups/words';

export const SAME_BY = {
  name: 'erase.same.name',
  phone: 'erase.same.phone',
  plate: 'erase.same.plate',
} as const satisfies Record<SameBy, PlainKey>;

/** A photo that goes, in words. */
export function photoWords({ caption, taken_at: taken, removed }: HeldPhoto): string {
  const moment = formatMoment(new Date(taken));
  const photo = caption
    ? t('erase.photo_line', { caption, moment })
    : t('erase.photo_plain', { moment });
  return removed ? t('erase.photo_removed', { photo }) : photo;
}

/** A place that was looked through, in words. */
export function placeWords({ place, name }: ProofPlace): string {
  switch (place) {
    case 'store':
      return t('erased.place.store', { name });
    case 'backup':
      return t('erased.place.backup', { name });
    case 'older_copy':
      return t('erased.place.older_copy', { name });
    case 'bundle':
      return t('erased.place.bundle');
  }
}

/** How much was looked through without finding anything; empty when there was none. */
export function cleanWords({ places }: Proof): string {
  const clean = places.filter(({ found }) => !found);
  if (clean.length === 0) return '';
  const bytes = clean.reduce((sum, place) => sum + place.bytes, 0);
  return t('erased.not_found', { files: clean.length, size: sizeWords(bytes) });
}

export const olderWords = (copy: OlderCopy): string =>
  t('older.line', {
    moment: formatMoment(new Date(copy.made_at)),
    why: why(copy),
    size: sizeWords(copy.bytes),
  });
