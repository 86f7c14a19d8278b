import type { BundleSigner, SignerDoubt } from '$lib/generated/commands';
import { formatMoment, t } from '$lib/messages';

/** What speaks against believing a signer, in words. */
export function doubtWords(signer: BundleSigner, doubt: SignerDoubt): string {
  switch (doubt) {
    case 'known_name_unknown_key':
      return t('signer.known_name', {
        names: signer.poses_as.join(', '),
        count: signer.poses_as.length,
      });
    case 'not_trusted':
      return t('signer.not_trusted', {
        moment: formatMoment(new Date(signer.distrusted_since ?? 0)),
        count: signer.signed_after,
      });
    case 'own_key_elsewhere':
      return t('signer.own_key');
  }
}
