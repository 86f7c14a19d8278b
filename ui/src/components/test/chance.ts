import { formatShare, t, type PlainKey } from '$lib/messages';

/** Probabilities in words, each from its lower end up. */
const WORDS: readonly (readonly [number, PlainKey])[] = [
  [0.95, 'test.chance.almost_sure'],
  [0.8, 'test.chance.likely'],
  [0.2, 'test.chance.even'],
  [0.05, 'test.chance.unlikely'],
  [0, 'test.chance.hardly'],
];

export function chanceWords(probability: number): string {
  const found = WORDS.find(([from]) => probability >= from);
  return t(found?.[1] ?? 'test.chance.hardly');
}

/** The figure, never a certainty that no measurement gives: "97 %", "over 99 %", "under 1 %". */
export function chanceFigure(probability: number): string {
  if (probability > 0.99) return t('test.verdict.over', { share: formatShare(0.99) });
  if (probability < 0.01) return t('test.verdict.under', { share: formatShare(0.01) });
  return formatShare(probability);
}
